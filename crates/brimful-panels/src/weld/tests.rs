use super::*;
use crate::body::body;
use crate::finding::kind::NotReached;
use crate::finding::{Kind, Origin};
use crate::panel::Role;
use crate::panels::panels;
use crate::table::Cited;
use order::{Corner, How, MeasuredFrom, Meets, Work};
use work::OrderOfWork;

fn job(rest: &str) -> Job {
    let text = format!(
        "[job]\nduty = \"standing\"\nlengths = \"mm\"\n[liquid]\nkind = \"water\"\n[body]\nbox = [600, 400, 300]\nthickness = 8\n{rest}"
    );
    Job::parse(&text).unwrap_or_else(|faults| panic!("{faults:?}"))
}

fn ordered(job: &Job) -> (OrderOfWork, Welds, Vec<Panel>, Vec<Seam>) {
    let (_, panels, seams) = worked(job);
    let (welds, order) = welds_in_order(job, &panels, &seams);
    (order, welds, panels, seams)
}

fn worked(job: &Job) -> (Welds, Vec<Panel>, Vec<Seam>) {
    let (body, _) = body(job, None).unwrap_or_else(|faults| panic!("{faults:?}"));
    let (laid_out, _) = panels(job, &body, None).unwrap_or_else(|faults| panic!("{faults:?}"));
    let (panels, seams) = (laid_out.panels, laid_out.seams);
    (welds(job, &panels, &seams), panels, seams)
}

#[test]
fn a_box_has_twelve_seams_each_welded_from_both_sides_but_the_lid_s() {
    let job = job("");
    let (_, welds, _, seams) = ordered(&job);
    assert_eq!(seams.len(), 12);
    assert_eq!(welds.welds.len(), 20);
    // Fillet 0.7 t square and the rest of the gap; bevel to half the sheet, at the lid through all of it.
    let (t, gap) = (8.0, 1.0);
    let fillet = (0.7 * t) * (0.7 * t) + gap * t / 2.0;
    let bevel = gap * t / 2.0 + t * t / 8.0;
    let through = gap * t + t * t / 2.0;
    let mut rod = 0.0;
    for weld in &welds.welds {
        let is_lid = seams[weld.seam].inner_line.iter().all(|end| end.z > 0.28);
        let wanted = match weld.side {
            WeldSide::Inside => fillet,
            WeldSide::Outside if is_lid => through,
            WeldSide::Outside => bevel,
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

/// What is said of seams that are not welded as they would be from both sides, with how many there are.
fn out_of_reach(rest: &str) -> Vec<(Grade, WeldKind, usize)> {
    let (_, welds, ..) = ordered(&job(rest));
    reach_told(welds)
}

fn reach_told(welds: Welds) -> Vec<(Grade, WeldKind, usize)> {
    let of_reach = |finding: Finding| match (finding.kind, finding.subject) {
        (
            Kind::Weld(
                kind @ (WeldKind::ThroughHatch
                | WeldKind::OutsideOnly(_)
                | WeldKind::InsideInPart(_)
                | WeldKind::OneFaceOnly(_)
                | WeldKind::CannotBeLaid(_)
                | WeldKind::ByHotGas),
            ),
            Subject::Seams(marks),
        ) => Some((finding.grade, kind, marks.len())),
        _ => None,
    };
    welds.findings.into_iter().filter_map(of_reach).collect()
}

#[test]
fn without_a_hatch_the_lid_is_welded_from_outside_alone() {
    let told = WeldKind::OutsideOnly(NotReached::NoHatch);
    let (draft, _, seams) = worked(&job(""));
    let (_, found, ..) = ordered(&job(""));
    for welds in [draft, found] {
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
        assert_eq!(reach_told(welds), [(Grade::Mend, told.clone(), 4)]);
    }
}

/// Through a hole that only an arm goes through nobody sees the corners beside it; with head and shoulders in a tank they
/// are reached and seen.
#[test]
fn behind_the_lid_is_reached_where_a_head_goes_in() {
    let arm = out_of_reach(&hatch(300.0, 150.0));
    let told = WeldKind::OutsideOnly(NotReached::ThroughHatches);
    assert_eq!(arm, [(Grade::Mend, told, 4)]);
    let room = "[job]\nduty = \"standing\"\nlengths = \"mm\"\n[liquid]\nkind = \"water\"\n[body]\nbox = [700, 700, 600]\nthickness = 10\n[[opening]]\nservice = \"hatch\"\npanel = \"lid\"\nat = [350, 350]\ndiameter = 520\n";
    let job = Job::parse(room).unwrap_or_else(|faults| panic!("{faults:?}"));
    let (_, welds, ..) = ordered(&job);
    assert_eq!(
        reach_told(welds),
        [(Grade::Mend, WeldKind::ThroughHatch, 4)]
    );
}

/// What a divider makes with lid and floor has no outside: the lid goes on before an end, and the divider is welded while
/// the tank is open there. In a draft nobody has looked.
#[test]
fn a_divider_is_welded_to_the_lid_before_an_end_closes_the_tank() {
    let divider =
        "[[inner]]\nname = \"d\"\nkind = \"divider\"\nacross = \"x\"\nat = 300\nthickness = 8\n";
    let (order, welds, panels, seams) = ordered(&job(divider));
    let is_closing = |step: &&order::Step| step.how == How::ClosingPanelUp;
    let closing = order.steps.iter().find(is_closing).expect("a step");
    let names: Vec<String> = closing
        .panels
        .iter()
        .map(|&number| panels[number].name.to_string())
        .collect();
    assert!(names == ["front"] || names == ["rear"], "{names:?}");
    let at_lid = seams.iter().position(|seam| {
        let mut own = seam.panels.iter().map(|&number| panels[number].role);
        seam.joint == Joint::Tee && own.any(|role| role == Role::Lid)
    });
    let laid = welds.welds.iter().filter(|it| Some(it.seam) == at_lid);
    assert_eq!(laid.count(), 2, "a fillet on either face");
    let cannot = |kind: &WeldKind| matches!(kind, WeldKind::CannotBeLaid(_));
    let told = [reach_told(welds), reach_told(worked(&job(divider)).0)];
    assert!(
        !told.concat().iter().any(|(_, kind, _)| cannot(kind)),
        "{told:?}"
    );
}

/// Inside a box of 300 mm no extruder of 600 mm lays the long corners of the floor, and hot gas does; its welds are
/// those of hot gas then.
#[test]
fn where_no_extruder_gets_hot_gas_does() {
    let text = "[job]\nduty = \"standing\"\nlengths = \"mm\"\n[liquid]\nkind = \"water\"\n[body]\nbox = [400, 300, 260]\nthickness = 12\n[shop]\nprocess = \"extrusion\"\n";
    let job = Job::parse(text).unwrap_or_else(|faults| panic!("{faults:?}"));
    let (_, welds, ..) = ordered(&job);
    let by_hot_gas = welds
        .welds
        .iter()
        .filter(|it| it.process == Process::HotGas);
    let sides: Vec<WeldSide> = by_hot_gas.map(|it| it.side).collect();
    assert!(!sides.is_empty() && sides.iter().all(|side| *side == WeldSide::Inside));
    let told = reach_told(welds);
    let is_told = (Grade::Mend, WeldKind::ByHotGas, sides.len());
    assert!(told.contains(&is_told), "{told:?}");
}

/// Below the reach of an arm a tall corner is welded from outside through the sheet, above it from both sides.
#[test]
fn a_run_is_laid_as_far_down_as_it_is_reached() {
    let text = "[job]\nduty = \"standing\"\nlengths = \"mm\"\n[liquid]\nkind = \"water\"\n[body]\nbox = [600, 500, 1200]\nthickness = 8\n";
    let job = Job::parse(text).unwrap_or_else(|faults| panic!("{faults:?}"));
    let (_, welds, _, seams) = ordered(&job);
    let in_part: Vec<_> = welds
        .welds
        .iter()
        .filter(|weld| !weld.left_out.is_empty())
        .collect();
    assert!(!in_part.is_empty());
    for weld in in_part {
        let missing: Length = weld.left_out.iter().map(|[from, to]| *to - *from).sum();
        assert!(missing > Length::ZERO && missing < seams[weld.seam].length());
        let whole = weld.length + missing;
        assert!((whole - seams[weld.seam].length()).abs().mm() < 1e-6);
        let mut others = welds.welds.iter().filter(|it| it.seam == weld.seam);
        let outside = others.find(|it| it.side == WeldSide::Outside);
        let throat = outside.expect("an outside weld").throat;
        assert!((throat.mm() - 8.0).abs() < 1e-9, "through the sheet");
    }
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
