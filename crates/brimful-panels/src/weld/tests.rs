use super::*;
use crate::body::body;
use crate::finding::kind::HatchReach;
use crate::finding::{Kind, Origin};
use crate::panel::Role;
use crate::panels::panels;
use crate::table::Cited;
use order::{Corner, How, MeasuredFrom, Meets, Work};
use work::{OrderOfWork, order_of_work};

fn job(rest: &str) -> Job {
    let text = format!(
        "[job]\nduty = \"standing\"\nlengths = \"mm\"\n[liquid]\nkind = \"water\"\n[body]\nbox = [600, 400, 300]\nthickness = 8\n{rest}"
    );
    Job::parse(&text).unwrap_or_else(|faults| panic!("{faults:?}"))
}

fn ordered(job: &Job) -> (OrderOfWork, Welds, Vec<Panel>, Vec<Seam>) {
    let (welds, panels, seams) = worked(job);
    let order = order_of_work(job, &panels, &seams, &welds.welds);
    (order, welds, panels, seams)
}

fn worked(job: &Job) -> (Welds, Vec<Panel>, Vec<Seam>) {
    let (body, _) = body(job, None).unwrap_or_else(|faults| panic!("{faults:?}"));
    let (laid_out, _) = panels(job, &body, None).unwrap_or_else(|faults| panic!("{faults:?}"));
    let (panels, seams) = (laid_out.panels, laid_out.seams);
    (welds(job, &panels, &seams), panels, seams)
}

#[test]
fn a_box_has_twelve_seams_each_welded_from_both_sides() {
    let job = job(&hatch(300.0, 150.0));
    let (welds, _, seams) = worked(&job);
    assert_eq!(seams.len(), 12);
    assert_eq!(welds.welds.len(), 24);
    // Fillet 0.7 t square and the rest of the gap; bevel to half the sheet.
    let (t, gap) = (8.0, 1.0);
    let fillet = (0.7 * t) * (0.7 * t) + gap * t / 2.0;
    let bevel = gap * t / 2.0 + t * t / 8.0;
    let mut rod = 0.0;
    for weld in &welds.welds {
        let wanted = if weld.side == WeldSide::Inside {
            fillet
        } else {
            bevel
        };
        assert!((weld.area.mm2() - wanted).abs() < 1e-6);
        // Whole rods of 4 mm that fill it twice over, each with 15 mm of overlap and 75 mm to trim.
        let runs = (2.0 * wanted / (std::f64::consts::PI * 4.0)).ceil();
        assert_eq!(weld.runs as f64, runs);
        rod += runs * (weld.length.mm() + 90.0);
    }
    assert!((welds.rods[0].length.mm() / rod - 1.0).abs() < 1e-9);
    let sum: Mass = welds.welds.iter().map(|weld| weld.rod_mass).sum();
    assert!((sum.kg() / welds.rods[0].mass.kg() - 1.0).abs() < 1e-9);
    let by_seam: Mass = welds.rod_mass_by_seam(seams.len()).into_iter().sum();
    let laid: Mass = welds.welds.iter().map(SeamWeld::laid_mass).sum();
    assert!((laid - by_seam).abs().kg() < 1e-12 && laid < sum);
}

/// An extruder's bead takes what its section does, and old melt is run out once a side.
#[test]
fn an_extruder_purges_once_a_side() {
    let mut extruded = job(&hatch(300.0, 150.0)).welded_by_extruder();
    extruded.stock.rods[0].coil = Some(Mass::from_kg(3.0));
    let (welds, ..) = worked(&extruded);
    let bead: f64 = welds
        .welds
        .iter()
        .map(|weld| (weld.length.m() + 0.045) * weld.area.m2() * 1.4)
        .sum();
    let purged = 2.0 * 0.075;
    let density = Material::Hdpe.density().expect("a density").value.kg_m3();
    let total = &welds.rods[0];
    assert!((total.mass.kg() / (bead * density + purged) - 1.0).abs() < 1e-9);
    assert_eq!(total.coils, Some((total.mass.kg() / 3.0).ceil() as usize));
    assert!(welds.welds.iter().all(|weld| weld.run_rod.is_none()));
}

#[test]
fn a_baffle_is_welded_along_its_foot_only() {
    let job = job(
        "[[inner]]\nkind = \"baffle\"\nacross = \"x\"\nat = 300\nair_gap = 30\ndrain_gap = 20\n",
    );
    let (welds, _, seams) = worked(&job);
    let tees: Vec<_> = welds
        .welds
        .iter()
        .filter(|weld| seams[weld.seam].joint == Joint::Tee)
        .collect();
    assert_eq!(tees.len(), 4);
    for tee in tees {
        assert!(
            (tee.length.mm() - (300.0 - 16.0 - 50.0)).abs() < 1e-6,
            "{}",
            tee.length.mm()
        );
    }
}

#[test]
fn tongues_are_welded_outside_along_both_their_sides() {
    let inner =
        "[[inner]]\nkind = \"baffle\"\nacross = \"x\"\nat = 300\njoint = \"slot through\"\n";
    let (welds, _, seams) = worked(&job(inner));
    let plugs: Vec<_> = welds
        .welds
        .iter()
        .filter(|weld| seams[weld.seam].joint == Joint::SlotThrough)
        .collect();
    assert_eq!(plugs.len(), 4);
    for plug in plugs {
        assert_eq!(plug.side, WeldSide::Outside);
        assert!(
            plug.length.mm() > 50.0 && plug.length.mm() < 284.0,
            "{}",
            plug.length.mm()
        );
    }
}

#[test]
fn every_seam_is_tacked_once_and_every_weld_has_its_step() {
    let (order, welds, panels, seams) = ordered(&job(
        "[[inner]]\nkind = \"divider\"\nacross = \"x\"\nat = 300\n",
    ));
    let mut tacked: Vec<usize> = order
        .steps
        .iter()
        .filter(|step| step.work == Work::Tack)
        .flat_map(|step| step.seams.clone())
        .collect();
    tacked.sort_unstable();
    assert_eq!(tacked, (0..seams.len()).collect::<Vec<_>>());
    let set: Vec<usize> = order
        .steps
        .iter()
        .filter(|step| step.work == Work::Set)
        .flat_map(|step| step.panels.clone())
        .collect();
    assert_eq!(set.len(), panels.len());
    assert_eq!(panels[set[0]].role, Role::Floor);
    assert_eq!(panels[*set.last().expect("panels")].role, Role::Lid);
    for weld in &welds.welds {
        let work = if weld.side == WeldSide::Inside {
            Work::WeldInside
        } else {
            Work::WeldOutside
        };
        assert!(
            order
                .steps
                .iter()
                .any(|step| step.work == work && step.seams.contains(&weld.seam))
        );
    }
    let is_found = |it: &Finding| matches!(it.kind, Kind::Weld(WeldKind::OrderFound { .. }));
    assert!(order.findings.iter().any(is_found));
}

#[test]
fn thick_sheet_and_short_rod_are_found() {
    let mut thick = job("");
    if let Some(body) = &mut thick.body {
        body.thickness = Some(Length::from_mm(12.0));
    }
    thick.stock.rods[0].length = Some(Length::from_m(5.0));
    let (welds, ..) = worked(&thick);
    let of = |welds: &Welds, kind: WeldKind| {
        let kind = Kind::Weld(kind);
        welds.findings.iter().find(|it| it.kind == kind).cloned()
    };
    let stop = of(&welds, WeldKind::SheetTooThick { by_extruder: true }).expect("a stop");
    assert_eq!(stop.grade, Grade::Stop);
    assert!(matches!(
        stop.source,
        Some(Origin::Table(source)) if matches!(source.cited, Cited::Row(row) if row.contains("DVS 2207-3"))
    ));
    let is_short = |it: &Finding| matches!(it.kind, Kind::Weld(WeldKind::RodShort { .. }));
    assert!(welds.findings.iter().any(is_short));
    thick.shop.process = Process::Extrusion;
    let (welds, ..) = worked(&thick);
    assert!(of(&welds, WeldKind::SheetTooThick { by_extruder: true }).is_none());
    assert!(welds.welds.iter().all(|weld| weld.runs == 1));
}

#[test]
fn a_panel_is_tacked_at_the_angle_of_its_seam() {
    let (order, ..) = ordered(&job(""));
    let corners = |order: &OrderOfWork| -> Vec<Corner> {
        let steps = order.steps.iter();
        steps
            .filter_map(|step| match &step.how {
                How::Against(corners) => Some(corners.clone()),
                _ => None,
            })
            .flatten()
            .collect()
    };
    let square = |corner: &Corner| corner.meets == Meets::Square;
    assert!(corners(&order).iter().all(square));
    // The front leans out by atan(100 / 300): 71.6 degrees to the floor's plane, inside 108.4.
    let text = "[job]\nduty = \"standing\"\nlengths = \"mm\"\n[liquid]\nkind = \"water\"\n[body]\nside = [[0, 0], [600, 0], [700, 300], [0, 300]]\nwidth = 400\nthickness = 8\n";
    let leaning = Job::parse(text).unwrap_or_else(|faults| panic!("{faults:?}"));
    let (order, _, _, seams) = ordered(&leaning);
    let mut slants: Vec<f64> = corners(&order)
        .iter()
        .filter_map(|corner| match corner.meets {
            Meets::At { angle, from } => {
                assert_eq!(from, MeasuredFrom::Inside);
                assert_eq!(angle, seams[corner.seam].angle);
                Some(angle.deg())
            }
            _ => None,
        })
        .collect();
    slants.sort_by(f64::total_cmp);
    let lean = (100.0_f64 / 300.0).atan().to_degrees();
    assert_eq!(slants.len(), 2, "{slants:?}");
    assert!((slants[0] - (90.0 - lean)).abs() < 1e-9, "{slants:?}");
    assert!((slants[1] - (90.0 + lean)).abs() < 1e-9, "{slants:?}");
}

fn hatch(x: f64, diameter: f64) -> String {
    format!(
        "[[opening]]\nservice = \"hatch\"\npanel = \"lid\"\nat = [{x}, 200]\ndiameter = {diameter}\n"
    )
}

/// What is said of the insides of the seams behind the lid, seam by seam.
fn behind_lid(rest: &str) -> Vec<(Grade, WeldKind, usize)> {
    let (welds, ..) = worked(&job(rest));
    let of_reach = |finding: Finding| match (finding.kind, finding.subject) {
        (
            Kind::Weld(
                kind @ (WeldKind::ThroughHatch
                | WeldKind::OutsideOnly(_)
                | WeldKind::OneFaceOnly(_)
                | WeldKind::CannotBeLaid(_)),
            ),
            Subject::Seams(marks),
        ) => Some((finding.grade, kind, marks.len())),
        _ => None,
    };
    welds.findings.into_iter().filter_map(of_reach).collect()
}

#[test]
fn without_a_hatch_the_lid_is_welded_from_outside_alone() {
    let (welds, _, seams) = worked(&job(""));
    let lid: Vec<_> = welds
        .welds
        .iter()
        .filter(|weld| seams[weld.seam].inner_line.iter().all(|end| end.z > 0.28))
        .collect();
    assert_eq!(lid.len(), 4, "one weld a seam");
    for weld in lid {
        assert_eq!(weld.side, WeldSide::Outside);
        assert!((weld.throat.mm() - 8.0).abs() < 1e-9, "through the sheet");
    }
    let told = WeldKind::OutsideOnly(HatchReach::NoHatch);
    assert_eq!(behind_lid(""), [(Grade::Mend, told, 4)]);
    let through = |how: &str| {
        let (order, ..) = ordered(&job(how));
        let steps = order.steps.into_iter();
        steps.filter(|step| step.how == How::ThroughHatches).count()
    };
    assert_eq!(through(""), 0);
    assert_eq!(through(&hatch(300.0, 150.0)), 1);
}

/// A hole that no arm goes through lays no run, and neither does one too far off.
#[test]
fn a_hatch_counts_by_its_width_and_by_its_place() {
    let near = behind_lid(&hatch(300.0, 150.0));
    assert_eq!(near, [(Grade::Mend, WeldKind::ThroughHatch, 4)]);
    let least = Length::from_mm(150.0);
    let small = WeldKind::OutsideOnly(HatchReach::TooSmall { least });
    assert_eq!(behind_lid(&hatch(300.0, 5.0)), [(Grade::Mend, small, 4)]);
    let reach = Length::from_mm(300.0);
    let far = WeldKind::OutsideOnly(HatchReach::TooFar { reach });
    // The short seam on the hatch's own side is reached, the three others are not all along.
    let found = behind_lid(&(hatch(120.0, 160.0) + "[shop]\nreach = 300\n"));
    assert!(found.contains(&(Grade::Mend, far, 3)), "{found:?}");
}

/// An arm goes in beside what stands under a hatch where 150 mm are clear: of one of 150 mm over a baffle nowhere, of
/// one of 350 mm on either side.
#[test]
fn an_arm_goes_in_beside_what_stands_under_the_hatch() {
    let baffle =
        "[[inner]]\nname = \"b\"\nkind = \"baffle\"\nacross = \"x\"\nat = 300\nthickness = 8\n";
    let through = |hatch: String| {
        let found = behind_lid(&format!("{baffle}{hatch}"));
        let is_through = |kind: &WeldKind| matches!(kind, WeldKind::ThroughHatch);
        found
            .iter()
            .filter(|(_, kind, _)| is_through(kind))
            .map(|(.., seams)| seams)
            .sum::<usize>()
    };
    assert_eq!(through(hatch(304.0, 150.0)), 0);
    assert!(through(hatch(304.0, 350.0)) > 0);
    assert!(through(hatch(150.0, 150.0)) > 0);
}

/// A hatch serves the compartment that it opens, however near the other one's seams are; the divider's
/// own seam with the lid has no outside.
#[test]
fn no_arm_goes_through_a_divider() {
    let divider =
        "[[inner]]\nname = \"d\"\nkind = \"divider\"\nacross = \"x\"\nat = 300\nthickness = 8\n";
    let none = behind_lid(divider);
    let cannot = WeldKind::CannotBeLaid(HatchReach::NoHatch);
    assert!(none.contains(&(Grade::Stop, cannot, 1)), "{none:?}");
    let one = behind_lid(&format!("{divider}{}", hatch(150.0, 150.0)));
    let is_outside = |kind: &WeldKind| matches!(kind, WeldKind::OutsideOnly(_));
    assert!(one.iter().any(|(_, kind, _)| is_outside(kind)), "{one:?}");
    let both = behind_lid(&format!(
        "{divider}{}{}",
        hatch(150.0, 150.0),
        hatch(450.0, 150.0)
    ));
    assert!(
        !both.iter().any(|(_, kind, _)| is_outside(kind)),
        "{both:?}"
    );
}

/// A seam that a divider makes with the lid has an inside in either compartment; where one alone is reached, the
/// divider is bevelled through and welded from there.
#[test]
fn a_divider_is_welded_to_the_lid_through_a_hatch_on_either_side() {
    let divider =
        "[[inner]]\nname = \"d\"\nkind = \"divider\"\nacross = \"x\"\nat = 300\nthickness = 8\n";
    let one = format!("{divider}{}", hatch(150.0, 150.0));
    let both = format!("{one}{}", hatch(450.0, 150.0));
    let told = |rest: &str, is_it: fn(&WeldKind) -> bool| {
        let found = behind_lid(rest);
        found.iter().filter(|(_, kind, _)| is_it(kind)).count()
    };
    let cannot = |kind: &WeldKind| matches!(kind, WeldKind::CannotBeLaid(_));
    let one_face = |kind: &WeldKind| matches!(kind, WeldKind::OneFaceOnly(_));
    assert_eq!([told(divider, cannot), told(divider, one_face)], [1, 0]);
    assert_eq!([told(&one, cannot), told(&one, one_face)], [0, 1]);
    assert_eq!([told(&both, cannot), told(&both, one_face)], [0, 0]);
    let laid = |rest: &str| {
        let (welds, panels, seams) = worked(&job(rest));
        let number = seams
            .iter()
            .position(|seam| seam.joint == Joint::Tee && reach::touches_lid(&panels, seam));
        let own = welds.welds.into_iter();
        own.filter(|weld| Some(weld.seam) == number)
            .collect::<Vec<_>>()
    };
    assert_eq!(laid(divider).len(), 0);
    assert_eq!(laid(&both).len(), 2);
    let [through] = &laid(&one)[..] else {
        panic!("one weld")
    };
    // A half V of 45 degrees through 8 mm, and the gap of 1 mm under it.
    assert!((through.throat.mm() - 8.0).abs() < 1e-9);
    assert!((through.area.mm2() - (8.0 * 8.0 / 2.0 + 8.0)).abs() < 1e-6);
}

/// An arm goes round no corner and through no baffle, but through a hole in one.
#[test]
fn an_arm_goes_straight() {
    let baffle = |hole: &str| {
        format!(
            "[[inner]]\nname = \"b\"\nkind = \"baffle\"\nacross = \"x\"\nat = 300\nair_gap = 20\n{hole}"
        )
    };
    let through = |rest: &str| {
        let found = behind_lid(rest);
        let mut kinds = found.iter();
        let it = kinds.find(|(_, kind, _)| *kind == WeldKind::ThroughHatch);
        it.map_or(0, |(_, _, seams)| *seams)
    };
    let hatch = hatch(150.0, 150.0);
    assert_eq!(through(&hatch), 4);
    assert_eq!(through(&format!("{}{hatch}", baffle(""))), 1, "its own bay");
    let legs = "[job]\nduty = \"standing\"\nlengths = \"mm\"\n[liquid]\nkind = \"water\"\n[body]\nside = [[0, 0], [720, 0], [720, 500], [420, 500], [420, 100], [300, 100], [300, 500], [0, 500]]\nwidth = 340\nthickness = 10\n[shop]\nreach = 900\n[[opening]]\nservice = \"hatch\"\npanel = \"lid\"\nat = [190, 170]\ndiameter = 150\n";
    let job = Job::parse(legs).unwrap_or_else(|faults| panic!("{faults:?}"));
    let (welds, panels, seams) = worked(&job);
    let far = panels
        .iter()
        .position(|it| it.name == *"lid 2")
        .expect("a second lid");
    let inside = welds.welds.iter().filter(|weld| {
        let seam = &seams[weld.seam];
        seam.panels.contains(&far) && weld.side == WeldSide::Inside && !seam.is_re_entrant()
    });
    assert_eq!(inside.count(), 0, "the other leg is reached by no hatch");
}

#[test]
fn a_divider_in_slots_is_not_tight() {
    let slots = |kind: &str| {
        let inner = format!(
            "[[inner]]\nkind = \"{kind}\"\nacross = \"x\"\nat = 300\njoint = \"slot through\"\n"
        );
        let (welds, ..) = worked(&job(&inner));
        let mut findings = welds.findings.into_iter();
        findings.any(|it| it.kind == Kind::Weld(WeldKind::NotTight) && it.grade == Grade::Stop)
    };
    assert!(slots("divider") && !slots("baffle"));
}
