use super::*;
use crate::body::body as outside;
use crate::finding::Kind;
use crate::finding::kind::OrderCost;
use crate::finding::kind::OrderMisfit;
use crate::panels::panels;
use crate::weld::order::{How, Work};
use crate::weld::sequence::best_of_all_orders;
use crate::weld::{Welds, welds_in_order, welds_within_reach};

struct Tank {
    job: Job,
    panels: Vec<Panel>,
    seams: Vec<Seam>,
    /// Every weld that there would be if all were in reach.
    all: Vec<SeamWeld>,
}

fn tank(text: &str) -> Tank {
    let text =
        format!("[job]\nduty = \"standing\"\nlengths = \"mm\"\n[liquid]\nkind = \"water\"\n{text}");
    let job = Job::parse(&text).unwrap_or_else(|faults| panic!("{faults:?}"));
    let (body, _) = outside(&job, None).unwrap_or_else(|faults| panic!("{faults:?}"));
    let (laid_out, _) = panels(&job, &body, None).unwrap_or_else(|faults| panic!("{faults:?}"));
    let all = vec![SeamReach::default(); laid_out.seams.len()];
    let all = welds_within_reach(&job, &laid_out.panels, &laid_out.seams, &all).welds;
    Tank {
        job,
        panels: laid_out.panels,
        seams: laid_out.seams,
        all,
    }
}

impl Tank {
    fn planned(&self) -> (Welds, OrderOfWork) {
        welds_in_order(&self.job, &self.panels, &self.seams)
    }

    fn order(&self) -> OrderOfWork {
        self.planned().1
    }

    fn runs(&self) -> Vec<Run> {
        runs(&self.job, &self.panels, &self.seams, &self.all).expect("few panels")
    }

    /// Names of the panels in the order in which they are set.
    fn set(&self) -> Vec<String> {
        let steps = self.order().steps.into_iter();
        let set = steps.filter(|step| step.work == Work::Set);
        let numbers = set.flat_map(|step| step.panels);
        numbers
            .map(|number| self.panels[number].name.to_string())
            .collect()
    }

    fn kinds(&self) -> Vec<WeldKind> {
        let (welds, order) = self.planned();
        let findings = order.findings.into_iter().chain(welds.findings);
        let kinds = findings.filter_map(|finding| match finding.kind {
            Kind::Weld(kind) => Some(kind),
            _ => None,
        });
        kinds.collect()
    }
}

const BOX: &str = "[body]\nbox = [600, 400, 300]\nthickness = 8\n";

fn baffle(name: &str, at: f64) -> String {
    format!(
        "[[inner]]\nname = \"{name}\"\nkind = \"baffle\"\nacross = \"x\"\nat = {at}\nair_gap = 30\ndrain_gap = 0\n"
    )
}

fn long_box() -> Tank {
    let baffles = [("b1", 400.0), ("b2", 800.0), ("b3", 1200.0)].map(|(name, at)| baffle(name, at));
    tank(&format!(
        "[body]\nbox = [1600, 500, 450]\nthickness = 8\n{}",
        baffles.concat()
    ))
}

/// Ends before the second long side, the middle baffle with the ends, the other baffles after, the lid last: common
/// practice.
#[test]
fn a_long_box_is_built_as_the_trade_does() {
    let set = long_box().set();
    let at = |name: &str| {
        set.iter()
            .position(|it| it == name)
            .unwrap_or_else(|| panic!("{name}: {set:?}"))
    };
    assert_eq!(at("floor"), 0);
    assert_eq!(at("lid"), set.len() - 1);
    let long = ["left", "right"].map(at);
    let [first, second] = [long[0].min(long[1]), long[0].max(long[1])];
    for end in ["front", "rear", "b2"].map(at) {
        assert!(first < end && end < second, "{set:?}");
    }
    assert!(
        ["b1", "b3"].map(at).iter().all(|&other| second < other),
        "{set:?}"
    );
}

#[test]
fn a_box_of_seven_panels_has_no_better_order() {
    let sloped =
        "[body]\nside = [[0, 0], [600, 0], [700, 300], [0, 300]]\nwidth = 400\nthickness = 8\n";
    let narrow = "[body]\nbox = [700, 160, 500]\nthickness = 8\n";
    let tanks = [
        BOX.to_owned(),
        format!("{BOX}{}", baffle("b", 300.0)),
        format!("{BOX}{}", baffle("b", 90.0)),
        format!("{narrow}{}", baffle("b", 300.0)),
        narrow.to_owned(),
        sloped.to_owned(),
    ];
    for text in tanks {
        let tank = tank(&text);
        let body = body(&tank.panels);
        assert!(body.len() <= 7);
        let problem = problem(&tank.panels, &tank.seams, &tank.runs(), &body);
        let found = problem.solve().map(|it| it.cost);
        assert_eq!(found, best_of_all_orders(&problem), "{text}");
    }
}

/// Every run of an open box is reached, and so nothing is out of reach but what lies behind the lid.
#[test]
fn all_of_a_plain_box_is_reached() {
    let kinds = tank(BOX).kinds();
    assert!(
        kinds.iter().any(|kind| matches!(
            kind,
            WeldKind::OrderFound { unreached, .. } if *unreached == Length::ZERO
        )),
        "{kinds:?}"
    );
}

/// Between two baffles 60 mm apart no hand of 100 mm gets in: the near side of the first is welded before the second
/// stands, and the near side of the second not at all.
#[test]
fn what_a_panel_closes_off_is_welded_before_it() {
    let tank = tank(&format!(
        "{BOX}{}{}",
        baffle("b1", 270.0),
        baffle("b2", 330.0)
    ));
    let order = tank.order();
    let set = |name: &str| {
        let is_it = |step: &Step| {
            let panels = step.panels.iter().map(|&number| &tank.panels[number]);
            step.work == Work::Set && panels.into_iter().any(|panel| panel.name == *name)
        };
        order.steps.iter().position(is_it).expect("a step")
    };
    let [first, second] = [set("b1").min(set("b2")), set("b1").max(set("b2"))];
    let mut between = order.steps[first..second].iter();
    assert!(between.any(|step| step.how == How::WhileOpen));
    let is_told = |finding: &Finding| match (&finding.kind, &finding.subject) {
        (Kind::Weld(WeldKind::OutOfReach { in_the_way, .. }), Subject::Seam(_, [baffle, _])) => {
            in_the_way
                .iter()
                .any(|name| name != baffle && name.to_string().starts_with('b'))
        }
        _ => false,
    };
    assert_eq!(order.findings.iter().filter(|it| is_told(it)).count(), 3);
}

#[test]
fn kit_that_does_not_fit_is_told() {
    let of = |shop: &str| tank(&format!("{BOX}[shop]\n{shop}\n")).kinds();
    let is_told = |kinds: &[WeldKind]| {
        kinds
            .iter()
            .any(|kind| matches!(kind, WeldKind::KitDoesNotFit { .. }))
    };
    assert!(!is_told(&of("")));
    assert!(is_told(&of("hand = 250\ngun_length = 80")));
    assert!(is_told(&of("gun_diameter = 300\ngun_length = 80")));
    assert!(of("hands = 1\nnozzle = \"round\"").contains(&WeldKind::NeedsTwoHands));
    // Of next to no reach: what is outside is still welded with the arm outside.
    let short = of("reach = 100");
    assert!(
        short
            .iter()
            .any(|kind| matches!(kind, WeldKind::OutsideOnly(_))),
        "{short:?}"
    );
}

/// A box with a baffle, and an order of its panels.
fn in_order(order: &str) -> Tank {
    tank(&format!(
        "{BOX}{}[weld]\norder = {order}\n",
        baffle("b", 300.0)
    ))
}

const GOOD: &str = r#"["floor", "left", "rear", "b", "front", "right", "lid"]"#;

fn own_cost(tank: &Tank) -> (OrderCost, OrderCost) {
    let costs = tank.kinds().into_iter().find_map(|kind| match kind {
        WeldKind::OwnOrder { own, best, .. } => Some((own, best)),
        _ => None,
    });
    costs.expect("a finding about the maker's own order")
}

#[test]
fn the_makers_order_is_followed_and_costed() {
    let tank = in_order(GOOD);
    assert_eq!(
        tank.set(),
        ["floor", "left", "rear", "b", "front", "right", "lid"]
    );
    let order = tank.order();
    assert_eq!(order.by, OrderedBy::Maker);
    let assembly = order.assembly.as_ref().expect("reach is known");
    let (own, best) = own_cost(&tank);
    assert_eq!(own, assembly.cost(assembly.order()));
    assert_eq!(best, assembly.cost(assembly.best()));
    assert!(own.unreached >= best.unreached);
    // What the steps cost adds up to what the order does.
    let steps: Vec<OrderCost> = order.costs().into_iter().flatten().collect();
    assert_eq!(steps.len(), 7);
    let unreached: Length = steps.iter().map(|cost| cost.unreached).sum();
    // Rounding of a few sums of lengths of a metre.
    assert!((unreached - own.unreached).m().abs() < 1e-9);
    let not_square: u32 = steps.iter().map(|cost| cost.not_square).sum();
    assert_eq!(not_square, own.not_square);
    // The draft follows it too, and says that its cost is not known.
    let draft = draft(&tank.job, &tank.panels, &tank.seams, &tank.all);
    assert_eq!(
        (draft.by, draft.costs().iter().flatten().count()),
        (OrderedBy::Maker, 0)
    );
    assert!(
        draft
            .findings
            .iter()
            .any(|it| it.kind == Kind::Weld(WeldKind::OwnOrderUnproven))
    );
}

/// Two walls that meet only the floor, and one that meets nothing when the work begins with it.
#[test]
fn what_hangs_loose_or_out_of_square_is_counted() {
    let of = |order: &str| own_cost(&in_order(order)).0;
    let cost = of(r#"["floor", "left", "right", "rear", "b", "front", "lid"]"#);
    assert_eq!((cost.loose, cost.not_square), (0, 2));
    let cost = of(r#"["left", "right", "floor", "rear", "b", "front", "lid"]"#);
    assert_eq!((cost.loose, cost.not_square), (1, 0));
    assert!(cost.against_custom > 0);
}

/// Two baffles 60 mm apart are set before all else: no hand gets between them once the floor meets both.
#[test]
fn a_worse_order_is_told_with_what_it_costs() {
    let baffles = [baffle("b1", 270.0), baffle("b2", 330.0)].concat();
    let of = |order: &str| tank(&format!("{BOX}{baffles}[weld]\norder = {order}\n"));
    let worse = of(r#"["b1", "b2", "floor", "left", "rear", "front", "right", "lid"]"#);
    let finding = &worse.order().findings[0];
    let (own, best) = own_cost(&worse);
    assert!(own.unreached > best.unreached, "{own:?} {best:?}");
    assert_eq!(finding.grade, Grade::Mend);
    assert!(finding.place.as_ref().is_some_and(|place| place.line > 0));
}

#[test]
fn an_order_that_cannot_be_followed_is_told_and_not_used() {
    let told = |order: &str| {
        let tank = in_order(order);
        let order = tank.order();
        assert_eq!(order.by, OrderedBy::Search);
        let misfit = order.findings.iter().find_map(|it| match &it.kind {
            Kind::Weld(WeldKind::OwnOrderNotUsed(misfit)) => {
                Some((misfit.clone(), it.place.clone()))
            }
            _ => None,
        });
        let (misfit, place) = misfit.expect("a finding");
        assert!(place.is_some_and(|place| place.line > 0));
        misfit
    };
    let OrderMisfit::LeavesOut(panels) = told(r#"["floor", "left", "rear", "front", "lid"]"#)
    else {
        panic!("panels are left out")
    };
    let late = told(r#"["floor", "left", "rear", "front", "right", "lid", "b"]"#);
    assert!(
        matches!(&late, OrderMisfit::ShutsOut(panels) if panels.len() == 1),
        "{late:?}"
    );
    let mut names: Vec<String> = panels.iter().map(ToString::to_string).collect();
    names.sort();
    assert_eq!(names, ["b", "right"]);
}

#[test]
fn ribs_may_be_left_out_of_an_order() {
    let rib = "[[rib]]\nname = \"band\"\nheights = [150]\ndepth = 40\n";
    let order = r#"["floor", "left", "rear", "front", "right", "lid"]"#;
    let tank = tank(&format!("{BOX}{rib}[weld]\norder = {order}\n"));
    let set = tank.set();
    assert_eq!(set[..6], ["floor", "left", "rear", "front", "right", "lid"]);
    assert!(set.len() > 6 && set[6..].iter().all(|name| name.starts_with("band")));
}

/// Every run is laid once; what stands grows by what is set; and a place is reached and seen where, and only where, a free
/// pose is found for it.
#[test]
fn the_build_step_by_step_agrees_with_its_poses() {
    // The inside of the lid's seams is planned from outside, for want of a hatch: all is free in an open box.
    assert_eq!(blocked_of(&in_order(GOOD)), 0);
    let baffles = [baffle("b1", 270.0), baffle("b2", 330.0)].concat();
    let narrow = tank(&format!("{BOX}{baffles}"));
    assert!(blocked_of(&narrow) > 0);
}

/// How many places of a tank's build are out of reach or sight, by poses as by sets of plates.
fn blocked_of(tank: &Tank) -> usize {
    let (welds, order) = tank.planned();
    let assembly = order.assembly.as_ref().expect("reach is known");
    let build = assembly.build(assembly.order(), &tank.panels, &tank.seams, &welds.welds);
    let steps: Vec<Step> = build.iter().map(|it| it.step.clone()).collect();
    assert_eq!(steps, order.steps);
    let mut laid: Vec<usize> = Vec::new();
    let mut blocked = 0;
    for step in &build {
        let grown = step.after.len() - step.before.len();
        assert_eq!(grown, usize::from(step.step.work == Work::Set));
        for run in &step.runs {
            laid.push(run.number);
            let poses = assembly.poses(&tank.job, &tank.panels, run.number, &step.before);
            assert_eq!(poses.len(), run.places.len());
            for (place, pose) in run.places.iter().zip(poses) {
                let is_free = pose.as_ref().is_some_and(|pose| pose.in_the_way.is_empty());
                assert_eq!(place.is_reached && place.is_seen, is_free, "{place:?}");
                assert_eq!(place.in_the_way.is_empty(), is_free);
                blocked += usize::from(!is_free);
            }
        }
    }
    laid.sort_unstable();
    let runs = assembly.runs().iter().enumerate();
    let is_planned = |run: &Run| {
        let mut welds = welds.welds.iter();
        welds.any(|weld| (weld.seam, weld.side) == (run.seam, run.side))
    };
    let planned = runs.filter(|(_, run)| is_planned(run));
    assert_eq!(laid, planned.map(|(number, _)| number).collect::<Vec<_>>());
    assert!(assembly.poses(&tank.job, &tank.panels, 999, &[]).is_empty());
    blocked
}
