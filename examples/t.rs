#![allow(missing_docs, clippy::unwrap_used, clippy::print_stdout)]
use std::time::Instant;
use weldbow::job::{file::JobFile, file_of_text, build};
fn main(){
 let text=std::fs::read_to_string("studies/jobs/rafter.toml").unwrap();
 let f=file_of_text("x",&text).unwrap();
 let v=serde_json::to_value(&f).unwrap();
 let n=100000;
 let t=Instant::now(); let mut s=0; for _ in 0..n { s+=v.clone().as_object().unwrap().len(); } println!("clone value {:?}", t.elapsed()/n);
 let t=Instant::now(); for _ in 0..n { let j:JobFile=serde_json::from_value(v.clone()).unwrap(); s+=j.passes.len(); } println!("clone+from_value {:?}", t.elapsed()/n);
 let t=Instant::now(); for _ in 0..n { let j=f.clone(); s+=j.passes.len(); } println!("clone file {:?}", t.elapsed()/n);
 let t=Instant::now(); for _ in 0..n { let j=build(&f).unwrap(); s+=j.passes.len(); } println!("build {:?}", t.elapsed()/n);
 let p=serde_json::to_value(&f.member).unwrap();
 let t=Instant::now(); for _ in 0..n { let j:weldbow::job::file::MemberShape=serde_json::from_value(p.clone()).unwrap(); s+=j.web.len(); } println!("member {:?}", t.elapsed()/n);
 let p=serde_json::to_value(&f.passes[0]).unwrap();
 let t=Instant::now(); for _ in 0..n { let j:weldbow::job::file::PassShape=serde_json::from_value(p.clone()).unwrap(); s+=j.order as usize; } println!("pass {:?}", t.elapsed()/n);
 let j=build(&f).unwrap();
 let t=Instant::now(); for _ in 0..n { let p=weldbow::prediction::predict(&j); s+=p.passes.len(); } println!("predict {:?}", t.elapsed()/n);
 println!("{s}");
}
