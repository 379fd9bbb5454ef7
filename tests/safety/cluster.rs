//! Studies that outgrow one machine: parts by the tasks of an array job, joined to the bytes of one run.

use super::{command, demo, desk, loud, says};
use std::fs::{create_dir_all, read, read_to_string, write};
use std::net::TcpListener;
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};
use std::time::{Duration, Instant};
use tempfile::TempDir;

/// A desk with a study of 3 000 cases.
fn study() -> TempDir {
    let folder = desk();
    let text = "title = \"Legs\"\njob = \"rafter.toml\"\ncollect = [\"camber.max_mm\", \"sweep.max_mm\"]\n\
        [[vary]]\nset = \"pass.leg\"\nfrom = \"4 mm\"\nto = \"8 mm\"\nsteps = 60\n\
        [[vary]]\nset = \"depth.end\"\nfrom = \"700 mm\"\nto = \"800 mm\"\nsteps = 50\n";
    write(folder.path().join("legs.toml"), text).unwrap();
    says(folder.path(), &["study", "legs.toml", "--out", "whole"], 0, &["3000 rows computed"]);
    folder
}

fn same_as_whole(folder: &Path, parts: &str) {
    let of = |out: &str| read(folder.join(out).join("legs.csv")).unwrap();
    assert!(of(parts) == of("whole"), "{parts}: joined parts are not what one run gives");
}

#[test]
fn parts_are_numbered_by_the_task_of_an_array_job() {
    let folder = study();
    for (out, tasks) in [
        ("slurm", [[("SLURM_ARRAY_TASK_ID", "1")], [("SLURM_ARRAY_TASK_ID", "2")]]),
        ("kubernetes", [[("JOB_COMPLETION_INDEX", "0")], [("JOB_COMPLETION_INDEX", "1")]]),
    ] {
        for task in tasks {
            let mut run = command(folder.path());
            run.args(["study", "legs.toml", "--out", out, "--resume", "--shard", "array/2"]).envs(task);
            run.assert().success();
        }
        says(folder.path(), &["study", "merge", "legs.toml", "--out", out], 0, &["2 parts joined"]);
        same_as_whole(folder.path(), out);
    }
    says(
        folder.path(),
        &["study", "legs.toml", "--out", "none", "--shard", "array/2"],
        2,
        &["no array job", "SLURM_ARRAY_TASK_ID"],
    );
}

/// The scripts of `studies/cluster` on a queue of one node, started and ended here. Where it is not installed, or does not start,
/// that is said and nothing is tested.
#[test]
fn an_array_on_a_queue_gives_the_bytes_of_one_run() {
    let folder = study();
    let queue = match Queue::start(folder.path()) {
        Ok(queue) => queue,
        Err(why) => {
            loud(&format!("==== THE SLURM ARRAY WAS NOT RUN: {why} ===="));
            return;
        }
    };
    let parts = 4;
    let send = |script: &str, more: &[&str]| {
        let said = queue.ask(
            "sbatch",
            &[&["--parsable"], more, &[demo("cluster").join(script).to_str().unwrap()]].concat(),
        );
        said.trim().to_owned()
    };
    let array = send("part.sbatch", &["--array=1-4", "--mem=100M"]);
    send("merge.sbatch", &[&format!("--dependency=afterok:{array}"), "--mem=100M"]);
    let begun = Instant::now();
    while !queue.ask("squeue", &["--noheader"]).trim().is_empty() {
        assert!(begun.elapsed() < Duration::from_secs(240), "{}", queue.ask("squeue", &[]));
        std::thread::sleep(Duration::from_millis(300));
    }
    let log =
        |name: &str| read_to_string(folder.path().join(name)).unwrap_or_else(|e| format!("{name}: {e}"));
    let merged = log("study-merge.log");
    assert!(merged.contains(&format!("{parts} parts joined")), "{merged}\n{}", log("study-part-1.log"));
    same_as_whole(folder.path(), "out");
    println!("an array of {parts} tasks and its merge took {:.1} s", begun.elapsed().as_secs_f64());
}

/// Its client reads the files into its own types, without a cluster; what these do not know is gone afterwards.
#[test]
fn the_files_for_kubernetes_are_what_its_client_takes_them_for() {
    let read = |name: &str| -> Result<serde_json::Value, String> {
        let file = demo("cluster").join(name);
        let mut kubectl = Command::new("kubectl");
        kubectl.args(["set", "env", "--local", "-o", "json", "PROBE=1", "-f"]).arg(file);
        let output = kubectl.output().map_err(|_| "kubectl is not installed".to_owned())?;
        serde_json::from_slice(&output.stdout)
            .map_err(|_| String::from_utf8_lossy(&output.stderr).into_owned())
    };
    let (parts, merge) = match (read("job.yaml"), read("merge.yaml")) {
        (Ok(parts), Ok(merge)) => (parts, merge),
        (Err(why), _) | (_, Err(why)) => {
            assert!(why.contains("not installed"), "{why}");
            loud(&format!("==== THE FILES FOR KUBERNETES WERE NOT READ: {why} ===="));
            return;
        }
    };
    let spec = &parts["spec"];
    let count = spec["completions"].as_u64().unwrap();
    assert_eq!((&spec["completionMode"], &spec["backoffLimitPerIndex"]), (&"Indexed".into(), &3.into()));
    assert!(spec["parallelism"].as_u64().unwrap() <= count, "{spec}");
    let of = |job: &serde_json::Value| job["spec"]["template"]["spec"].clone();
    let command = of(&parts)["containers"][0]["command"].to_string();
    assert!(command.contains(&format!("array/{count}")) && command.contains("--resume"), "{command}");
    assert!(of(&merge)["containers"][0]["command"].to_string().contains("merge"));
    for job in [&parts, &merge] {
        assert_eq!((&job["apiVersion"], &job["kind"]), (&"batch/v1".into(), &"Job".into()));
        let pod = of(job);
        assert_eq!(pod["restartPolicy"], "Never");
        let names = |list: &serde_json::Value| -> Vec<String> {
            list.as_array().unwrap().iter().map(|one| one["name"].to_string()).collect()
        };
        assert_eq!(names(&pod["containers"][0]["volumeMounts"]), names(&pod["volumes"]), "{pod}");
        assert!(pod["containers"][0]["resources"]["limits"]["memory"].is_string(), "{pod}");
    }
}

/// A queue of one node in a folder.
struct Queue {
    home: PathBuf,
    folder: PathBuf,
    daemons: Vec<Child>,
}

impl Queue {
    fn start(folder: &Path) -> Result<Self, String> {
        for program in ["slurmctld", "slurmd", "sbatch", "squeue"] {
            let found = Command::new(program).arg("-V").stdout(Stdio::null()).stderr(Stdio::null()).status();
            found.map_err(|_| format!("{program} is not installed"))?;
        }
        let home = folder.join("queue");
        ["state", "spool"].iter().for_each(|name| create_dir_all(home.join(name)).unwrap());
        let user = Command::new("id").arg("-un").output().unwrap().stdout;
        let port = || TcpListener::bind("127.0.0.1:0").unwrap().local_addr().unwrap().port();
        let cores = std::thread::available_parallelism().map_or(1, usize::from);
        let text = CONFIGURATION
            .replace("HOME", home.to_str().unwrap())
            .replace("USER", String::from_utf8_lossy(&user).trim())
            .replace("CORES", &cores.to_string())
            .replace("PORT_A", &port().to_string())
            .replace("PORT_B", &port().to_string());
        write(home.join("slurm.conf"), text).unwrap();
        let mut queue = Self { home, folder: folder.to_owned(), daemons: Vec::new() };
        for arguments in [&["slurmctld", "-D"][..], &["slurmd", "-D", "-N", "localhost"]] {
            let mut daemon = queue.command(arguments[0], &arguments[1..]);
            let started = daemon.stdout(Stdio::null()).stderr(Stdio::null()).spawn();
            queue.daemons.push(started.map_err(|e| format!("{}: {e}", arguments[0]))?);
        }
        let begun = Instant::now();
        while !queue.ask("sinfo", &["--noheader", "-o", "%t"]).contains("idle") {
            let ended = queue.daemons.iter_mut().any(|daemon| daemon.try_wait().is_ok_and(|e| e.is_some()));
            if ended || begun.elapsed() > Duration::from_secs(20) {
                let log = |name: &str| read_to_string(queue.home.join(name)).unwrap_or_default();
                let last = |text: String| text.lines().last().unwrap_or_default().to_owned();
                return Err(format!(
                    "the daemons do not start: {} {}",
                    last(log("ctld.log")),
                    last(log("d.log"))
                ));
            }
            std::thread::sleep(Duration::from_millis(100));
        }
        Ok(queue)
    }

    fn command(&self, program: &str, arguments: &[&str]) -> Command {
        let mut command = Command::new(program);
        command.current_dir(&self.folder).args(arguments).env("SLURM_CONF", self.home.join("slurm.conf"));
        let weldbow = assert_cmd::cargo::cargo_bin("weldbow");
        command.env("WELDBOW", weldbow).env("STUDY", "legs.toml").env("OUT", "out");
        command
    }

    fn ask(&self, program: &str, arguments: &[&str]) -> String {
        let output = self.command(program, arguments).output().unwrap();
        String::from_utf8_lossy(&output.stdout).into_owned()
    }
}

impl Drop for Queue {
    fn drop(&mut self) {
        self.ask("scontrol", &["shutdown"]);
        let begun = Instant::now();
        for daemon in &mut self.daemons {
            while daemon.try_wait().is_ok_and(|ended| ended.is_none()) {
                if begun.elapsed() > Duration::from_secs(5) {
                    let _ = daemon.kill();
                }
                std::thread::sleep(Duration::from_millis(50));
            }
        }
    }
}

/// Without accounts and without a keyring: a queue for nobody else.
const CONFIGURATION: &str = "ClusterName=one
SlurmctldHost=localhost
SlurmctldPort=PORT_A
SlurmdPort=PORT_B
SlurmUser=USER
SlurmdUser=USER
AuthType=auth/none
CredType=cred/none
StateSaveLocation=HOME/state
SlurmdSpoolDir=HOME/spool
SlurmctldPidFile=HOME/ctld.pid
SlurmdPidFile=HOME/d.pid
SlurmctldLogFile=HOME/ctld.log
SlurmdLogFile=HOME/d.log
ProctrackType=proctrack/linuxproc
TaskPlugin=task/none
SwitchType=switch/none
MpiDefault=none
JobAcctGatherType=jobacct_gather/none
AccountingStorageType=accounting_storage/none
SchedulerType=sched/builtin
SelectType=select/cons_tres
SelectTypeParameters=CR_CPU
ReturnToService=2
NodeName=localhost CPUs=CORES RealMemory=500 State=UNKNOWN
PartitionName=main Nodes=ALL Default=YES MaxTime=INFINITE State=UP
";
