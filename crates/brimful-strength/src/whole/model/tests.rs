use super::super::filled::filled_cases;
use super::*;
use crate::load::STANDARD_GRAVITY;
use brimful_job::Job;
use brimful_panels::body::body;
use brimful_panels::case::Fill;
use brimful_panels::liquid::compartments;
use brimful_panels::panels::panels;
use brimful_panels::progress::Unwatched;

/// Water on one side of a divider and a liquid of 1200 kg/m3 on the other, both brim-full: on the middle of its
/// sheet presses what they differ by, `(1200 - 1000) g H^2 / 2` a metre with H from the lid's inside to
/// the middle of the floor; in the leak test nothing.
#[test]
fn a_divider_bears_what_its_liquids_differ_by() {
    let job = Job::parse(
        "[job]\nlengths = \"mm\"\nduty = \"standing\"\n[liquid]\nkind = \"water\"\n[body]\nbox = [600, 400, 300]\nthickness = 12\n[[inner]]\nname = \"wall\"\nkind = \"divider\"\nacross = \"x\"\nat = 300\n[[compartment]]\nbetween = [\"wall\", \"front\"]\ndensity = \"1200 kg/m3\"\n",
    )
    .expect("a job");
    let (body, _) = body(&job, None).expect("a body");
    let (laid_out, _) = panels(&job, &body, None).expect("panels");
    let (panels, seams) = (&laid_out.panels, &laid_out.seams);
    let compartments = compartments(&job, &body, panels, seams).expect("rooms");
    let tank = Tank {
        job: &job,
        body: &body,
        panels,
        seams,
        compartments: &compartments,
        progress: &Unwatched,
    };
    let midsurface = Midsurface::of(&body, panels, seams).expect("middles");
    let model = Model::of(&tank, &midsurface, 12.0, None).expect("a mesh");
    let heads = compartments.iter();
    let heads: Vec<Heads> = heads
        .map(|room| Heads::new(room.contents.density, &room.room))
        .collect();
    let divider = panels.iter().position(|panel| panel.role == Role::Divider);
    let pushed = |kind: LoadKind| {
        let mut cases = filled_cases(&tank).into_iter().flatten();
        let filled = cases.find(|it| it.case.id.kind == kind && it.case.id.fill == Fill::All);
        let load = model
            .load(&filled.expect("a case"), &heads)
            .expect("a load");
        let own = (0..model.panel.len()).filter(|&it| Some(model.panel[it]) == divider);
        own.map(|triangle| {
            let [a, b, c] = model.mesh.triangles[triangle]
                .nodes
                .map(|node| model.mesh.nodes[node]);
            let area = (b - a).cross(c - a).length() / 2.0;
            area * load.pressures[triangle].iter().sum::<f64>() / 3.0
        })
        .sum::<f64>()
        .abs()
    };
    let deep: f64 = 0.3 - 1.5 * 0.012;
    let by_hand = 200.0 * STANDARD_GRAVITY * deep.powi(2) / 2.0 * (0.4 - 0.012);
    // Elements at the lid reach half a sheet above where the pressure ends.
    let found = pushed(LoadKind::Rest) / by_hand;
    assert!((found - 1.0).abs() < 0.01, "{found}");
    assert!(pushed(LoadKind::Test) < 1e-9 * by_hand);
}
