use super::*;
use crate::body::body as outside;
use crate::finding::Kind;
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
    assert!(is_told(&of("hand = 900")));
    assert!(is_told(&of("gun_diameter = 900")));
    assert!(of("hands = 1\nnozzle = \"round\"").contains(&WeldKind::NeedsTwoHands));
    // Of no reach: what is outside is still welded with the arm outside.
    let short = of("reach = 1");
    assert!(
        short
            .iter()
            .any(|kind| matches!(kind, WeldKind::OutsideOnly(_))),
        "{short:?}"
    );
}
