use super::*;
use crate::joint_solver::shape::points;

const TEE: Joint = Joint::USUAL;

fn meshed_area(mesh: &Mesh) -> f64 {
    mesh.elements.iter().flat_map(|e| points(mesh, e)).map(|p| p.area_mm2).sum()
}

#[test]
fn the_mesh_of_any_joint_has_its_area_and_no_folded_element() {
    let unequal = Joint { near_leg_mm: Some(5.0), far_leg_mm: Some(8.0), ..TEE };
    let one_sided = Joint { far_leg_mm: None, root: Root::Slit, ..TEE };
    let bare = Joint { near_leg_mm: None, far_leg_mm: None, ..TEE };
    for (joint, laid) in [
        (TEE, vec![Side::Near, Side::Far]),
        (unequal, vec![Side::Near, Side::Far]),
        (one_sided, vec![Side::Near]),
        (bare, vec![]),
    ] {
        for fineness in [Fineness::COARSE, Fineness::STANDARD] {
            let mesh = joint.mesh(fineness).unwrap();
            let (got, want) = (meshed_area(&mesh), joint.area_mm2(&laid));
            assert!((got / want - 1.0).abs() < 1e-12, "{joint:?}: {got} against {want} mm²");
            let least = mesh.elements.iter().flat_map(|e| points(&mesh, e)).map(|p| p.area_mm2);
            assert!(least.fold(f64::INFINITY, f64::min) > 0.0);
        }
    }
}

#[test]
fn a_tied_joint_is_one_body_and_a_slit_one_faces_itself_over_the_open_foot() {
    let tied = TEE.mesh(Fineness::STANDARD).unwrap();
    let mut places: Vec<[i64; 2]> =
        tied.nodes_mm.iter().map(|p| p.map(|x| (x * 1e6).round() as i64)).collect();
    places.sort_unstable();
    places.dedup();
    assert_eq!(places.len(), tied.nodes_mm.len(), "no two nodes at one place");
    let slit = Joint { root: Root::Slit, ..TEE }.mesh(Fineness::STANDARD).unwrap();
    assert!(tied.facing.is_empty());
    // 5 columns of 1.6 mm, one tied on either side: 2 lines and 3 edges between are free of the flange.
    assert_eq!(slit.facing.len(), 2 + 3);
    assert_eq!(slit.nodes_mm.len(), tied.nodes_mm.len() + 2 + 3);
    let open: f64 = slit.facing.iter().map(|f| f.width_mm).sum();
    // Half an edge's end weight at either tied line is not part of a pair.
    assert!((open - (4.8 - 2.0 * 1.6 / 6.0)).abs() < 1e-9, "{open}");
}

#[test]
fn the_standard_mesh_of_the_reference_tee_has_about_six_hundred_elements() {
    let count = TEE.mesh(Fineness::STANDARD).unwrap().elements.len();
    assert!((500..700).contains(&count), "{count} elements");
    let coarse = TEE.mesh(Fineness::COARSE).unwrap().elements.len();
    assert!(coarse < 200, "{coarse} elements");
}

#[test]
fn sizes_that_make_no_joint_are_refused_with_their_value() {
    let leg = Joint { near_leg_mm: Some(96.0), ..TEE }.check().unwrap_err();
    assert_eq!(leg, SectionError::FilletTooLarge { leg_mm: 96.0, on: "the flange", room_mm: 96.0 });
    let stub = Joint { web_stub_mm: 5.0, ..TEE }.check().unwrap_err();
    assert_eq!(stub, SectionError::FilletTooLarge { leg_mm: 6.0, on: "the web stub", room_mm: 5.0 });
    for bad in [0.0, -1.0, f64::NAN, f64::INFINITY] {
        for joint in [
            Joint { flange_mm: bad, ..TEE },
            Joint { web_mm: bad, ..TEE },
            Joint { near_leg_mm: Some(bad), ..TEE },
            Joint { flange_width_mm: bad, ..TEE },
        ] {
            assert!(matches!(joint.check(), Err(SectionError::NotPositive { .. })), "{joint:?}");
        }
    }
    let wide_web = Joint { web_mm: 300.0, ..TEE }.check();
    assert!(matches!(wide_web, Err(SectionError::NotPositive { .. })), "{wide_web:?}");
}

#[test]
fn a_fineness_beyond_a_million_unknowns_is_refused_before_it_is_made() {
    let fine = Fineness { per_leg: 400, even: 10_000, growth: 1.0 };
    assert!(matches!(TEE.mesh(fine), Err(SectionError::TooLarge { unknowns, .. }) if unknowns > 1e6));
    let odd = Fineness { per_leg: 100_000, ..Fineness::STANDARD };
    assert!(matches!(TEE.mesh(odd), Err(SectionError::OutOfRange { .. })));
    let huge = Joint { flange_width_mm: 1e9, ..TEE };
    assert!(huge.mesh(Fineness { growth: 1.0, ..Fineness::STANDARD }).is_err());
}
