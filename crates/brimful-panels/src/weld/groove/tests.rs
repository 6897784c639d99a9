use super::*;
use brimful_geom::vector::Point3;
use brimful_units::{Angle, Length};

fn seam(joint: Joint, degrees: f64) -> Seam {
    let line = [Point3::ORIGIN, Point3::new(1.0, 0.0, 0.0)];
    Seam {
        mark: "S1".into(),
        panels: [0, 1],
        joint,
        inner_line: line,
        outer_line: Some(line),
        angle: Angle::from_deg(degrees),
        gap: Length::from_mm(1.0),
    }
}

fn sheets(t_mm: f64, u_mm: f64, gap_mm: f64) -> Sheets {
    Sheets {
        thickness: [t_mm * 1e-3, u_mm * 1e-3],
        gap: gap_mm * 1e-3,
        groove_angle: 60.0_f64.to_radians(),
    }
}

fn areas(joint: Joint, degrees: f64, sheets: &Sheets) -> Vec<f64> {
    let found = sections(&seam(joint, degrees), sheets, Access::BothSides).expect("a section");
    for section in &found {
        assert!(section.outline.signed_area() > 0.0, "{section:?}");
        assert!(section.outline.faults().is_empty(), "{section:?}");
    }
    found
        .iter()
        .map(|section| section.outline.signed_area() * 1e6)
        .collect()
}

fn near(found: f64, wanted: f64, tolerance: f64) {
    assert!(
        (found - wanted).abs() <= tolerance,
        "found {found}, wanted {wanted}"
    );
}

/// Groove areas computed for the reference independently: 60 degrees, gap 1 mm; fillet throat
/// 0.7 t, one side and no gap. Thickness in mm; single V, double V, fillet in mm2.
#[test]
fn butts_and_fillets_are_those_of_the_table() {
    let table = [
        (5.0, 19.4, 12.2, 12.2),
        (6.0, 26.8, 16.4, 17.6),
        (6.35, 29.6, 18.0, 19.8),
        (8.0, 45.0, 26.5, 31.4),
        (9.53, 61.9, 35.7, 44.5),
        (10.0, 67.7, 38.9, 49.0),
        (12.7, 105.8, 59.3, 79.0),
    ];
    for (t, single, double, fillet) in table {
        let areas_of_butt = areas(Joint::Butt, 180.0, &sheets(t, t, 1.0));
        let total: f64 = areas_of_butt.iter().sum();
        match areas_of_butt.len() {
            1 => near(total, single, 0.06),
            _ => near(total, double, 0.06),
        }
        assert_eq!(areas_of_butt.len() == 1, t <= 6.0);
        for area in areas(Joint::Tee, 90.0, &sheets(t, t, 0.0)) {
            near(area, fillet, 0.06);
        }
    }
}

#[test]
fn a_square_open_corner_is_half_the_square_of_the_thickness() {
    near(
        areas(Joint::OpenCorner, 90.0, &sheets(8.0, 8.0, 0.0))[0],
        32.0,
        1e-9,
    );
    near(
        areas(Joint::OpenCorner, 90.0, &sheets(8.0, 6.0, 0.0))[0],
        24.0,
        1e-9,
    );
    // With a gap each edge moves back by half of it: a trapezium.
    let (t, g) = (8.0, 1.0);
    near(
        areas(Joint::OpenCorner, 90.0, &sheets(t, t, g))[0],
        t * (t + g) / 2.0,
        1e-9,
    );
    let found = sections(
        &seam(Joint::OpenCorner, 90.0),
        &sheets(8.0, 8.0, 0.0),
        Access::BothSides,
    )
    .expect("a section");
    near(found[0].throat * 1e3, 8.0 / 2.0_f64.sqrt(), 1e-9);
    assert_eq!(found[0].side, WeldSide::Outside);
}

#[test]
fn a_flat_open_corner_is_a_single_v() {
    let (t, g) = (6.0, 1.0);
    let v = g * t + t * t * 30.0_f64.to_radians().tan();
    near(
        areas(Joint::OpenCorner, 180.0, &sheets(t, t, g))[0],
        v,
        1e-9,
    );
    near(
        areas(Joint::Mitred, 180.0 - 1e-9, &sheets(t, t, g))[0],
        v,
        1e-6,
    );
}

#[test]
fn through_and_butt_is_a_bevel_and_a_fillet() {
    let (t, g) = (8.0, 1.0);
    let joint = Joint::ThroughAndButt { through: 0 };
    let found = areas(joint, 90.0, &sheets(10.0, t, g));
    let (depth, throat) = (t / 2.0, 0.7 * t);
    near(found[0], throat * throat + g * (t - depth), 1e-9);
    near(found[1], depth * g + depth * depth / 2.0, 1e-9);
    // Which one butts decides the depth, the thinner sheet the throat.
    let other = areas(
        Joint::ThroughAndButt { through: 1 },
        90.0,
        &sheets(10.0, t, g),
    );
    near(other[1], 5.0 * g + 12.5, 1e-9);
}

#[test]
fn at_an_inside_corner_the_sides_change() {
    let joint = Joint::ThroughAndButt { through: 0 };
    let out = sections(
        &seam(joint, 90.0),
        &sheets(8.0, 8.0, 1.0),
        Access::BothSides,
    )
    .expect("sections");
    let inn = sections(
        &seam(joint, 270.0),
        &sheets(8.0, 8.0, 1.0),
        Access::BothSides,
    )
    .expect("sections");
    assert_eq!(out[0].kind, GrooveKind::Fillet);
    assert_eq!(inn[0].kind, GrooveKind::HalfV);
    assert_eq!(inn[0].side, WeldSide::Inside);
    near(
        out[0].outline.signed_area(),
        inn[1].outline.signed_area(),
        1e-15,
    );
}

#[test]
fn leaning_fillets_follow_the_half_angle() {
    let found = areas(Joint::Tee, 60.0, &sheets(8.0, 8.0, 0.0));
    let throat: f64 = 5.6;
    near(
        found[0],
        throat * throat * 30.0_f64.to_radians().tan(),
        1e-9,
    );
    near(
        found[1],
        throat * throat * 60.0_f64.to_radians().tan(),
        1e-9,
    );
}

#[test]
fn thick_mitres_are_grooved_from_both_sides() {
    let found = sections(
        &seam(Joint::Mitred, 150.0),
        &sheets(10.0, 10.0, 1.0),
        Access::BothSides,
    )
    .expect("sections");
    assert_eq!(found.len(), 2);
    assert_eq!(
        (found[0].side, found[1].side),
        (WeldSide::Inside, WeldSide::Outside)
    );
    let depth = 10.0 / 75.0_f64.to_radians().sin();
    near((found[0].throat + found[1].throat) * 1e3, depth, 1e-9);
    let uneven = sections(
        &seam(Joint::Mitred, 140.0),
        &sheets(10.0, 6.0, 1.0),
        Access::BothSides,
    )
    .expect("sections");
    assert!(
        uneven
            .iter()
            .all(|section| section.outline.signed_area() > 0.0)
    );
}

#[test]
fn what_has_no_groove_says_so() {
    let joint = Joint::ThroughAndButt { through: 0 };
    assert_eq!(
        sections(&seam(joint, 2.0), &sheets(8.0, 8.0, 1.0), Access::BothSides),
        Err(NoSection::Angle)
    );
    assert!(
        sections(
            &seam(joint, 135.0),
            &sheets(8.0, 8.0, 1.0),
            Access::BothSides
        )
        .is_ok()
    );
    assert_eq!(
        sections(
            &seam(joint, 150.0),
            &sheets(8.0, 8.0, 1.0),
            Access::BothSides
        ),
        Err(NoSection::Angle)
    );
    assert_eq!(
        sections(
            &seam(Joint::Tee, 90.0),
            &sheets(0.0, 8.0, 1.0),
            Access::BothSides
        ),
        Err(NoSection::Size)
    );
    assert_eq!(
        sections(
            &seam(Joint::Butt, 180.0),
            &sheets(8.0, f64::NAN, 1.0),
            Access::BothSides
        ),
        Err(NoSection::Size)
    );
}

/// Where the inside cannot be reached the groove goes through the sheet: a half V of 45 degrees, t^2 / 2 and
/// the gap, a single V as in the table, and nothing where only the inside could be welded.
#[test]
fn from_outside_alone_a_groove_goes_through() {
    let sheets = sheets(8.0, 8.0, 1.0);
    let of = |joint, degrees| {
        sections(&seam(joint, degrees), &sheets, Access::OutsideOnly).expect("sections")
    };
    let area = |section: &Section| section.outline.signed_area() * 1e6;
    let corner = of(Joint::ThroughAndButt { through: 0 }, 90.0);
    assert_eq!(corner.len(), 1);
    near(area(&corner[0]), 8.0 * 8.0 / 2.0 + 8.0, 1e-6);
    near(corner[0].throat, 0.008, 1e-12);
    let butt = of(Joint::Butt, 180.0);
    assert_eq!(butt.len(), 1);
    near(area(&butt[0]), 45.0, 0.1);
    let inward = of(Joint::ThroughAndButt { through: 0 }, 270.0);
    assert_eq!(inward.len(), 1, "a fillet outside, at an inside corner");
    assert!(of(Joint::Tee, 90.0).is_empty());
}

/// Areas of grooves through the whole sheet, computed for the reference independently: V of 60 degrees with gaps of 1 and of
/// 0.5 mm, and half V of 45 degrees with 1 mm, in mm2, by the thickness in mm.
#[test]
fn grooves_from_one_side_are_those_of_the_table() {
    let table = [
        (3.0, 8.2, 6.7, 7.5),
        (4.0, 13.2, 11.2, 12.0),
        (5.0, 19.4, 16.9, 17.5),
        (6.0, 26.8, 23.8, 24.0),
        (8.0, 45.0, 41.0, 40.0),
        (10.0, 67.7, 62.7, 60.0),
        (12.0, 95.1, 89.1, 84.0),
        (15.0, 144.9, 137.4, 127.5),
        (20.0, 250.9, 240.9, 220.0),
    ];
    let from_outside = |joint, degrees, t: f64, gap: f64| {
        let mut seam = seam(joint, degrees);
        seam.gap = Length::from_mm(gap);
        let found = sections(&seam, &sheets(t, t, gap), Access::OutsideOnly).expect("a section");
        found[0].outline.signed_area() * 1e6
    };
    for (t, wide, narrow, half) in table {
        // Given to a tenth.
        near(from_outside(Joint::Butt, 180.0, t, 1.0), wide, 0.051);
        near(from_outside(Joint::Butt, 180.0, t, 0.5), narrow, 0.051);
        let corner = Joint::ThroughAndButt { through: 0 };
        near(from_outside(corner, 90.0, t, 1.0), half, 0.051);
    }
}

/// What is laid last lies at the surface, from one edge of the groove to the other.
#[test]
fn the_surface_is_a_side_of_what_rod_fills() {
    for (joint, degrees, gap) in [
        (Joint::OpenCorner, 90.0, 1.0),
        (Joint::Butt, 180.0, 0.0),
        (Joint::Mitred, 90.0, 1.0),
        (Joint::ThroughAndButt { through: 0 }, 100.0, 1.0),
        (Joint::Tee, 80.0, 0.0),
        (Joint::SlotThrough, 90.0, 1.0),
    ] {
        for t in [5.0, 8.0] {
            let found = sections(&seam(joint, degrees), &sheets(t, t, gap), Access::BothSides);
            for section in found.expect("sections") {
                let corners = &section.outline.0;
                for end in section.surface {
                    let off = corners.iter().map(|corner| corner.distance(end));
                    near(off.fold(f64::MAX, f64::min), 0.0, 1e-12);
                }
                let parts = run_sections(&section.outline, section.surface, 6);
                let filled: f64 = parts.iter().map(Outline::signed_area).sum();
                // Halvings of each share.
                near(filled / section.outline.signed_area(), 1.0, 1e-6);
            }
        }
    }
}
