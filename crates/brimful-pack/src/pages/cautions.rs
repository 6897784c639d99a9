//! What can hurt, and what this pack does not know.

use super::document::Document;
use brimful_tank::job::Duty;
use brimful_tank::plan::Plan;

pub fn write(document: &mut Document, plan: &Plan) {
    document.page("Cautions");
    document.notice("This pack is no certificate. It says what was assumed and worked out. Local codes, the vehicle's or boat's own rules, and people licensed to judge come before it.");
    document.heading("At the bench");
    document.bullets(&[
        "Hot gas is near 300 degC and burns without a flame. Cool the gun before switching it off, and stand it where nothing can roll.",
        "Fumes: weld with moving air and extraction at the seam. Burnt plastic is a spoilt weld and bad air; turn the heat down.",
        "Keep solvents, their rags and their vapour away from heat. Let wiped edges dry.",
        "Never weld on a tank that has held anything that burns or gives off vapour.",
        "Saws: support the whole sheet, guard on, push stick; hot chips weld themselves back into a slow cut and make it kick. Wear eye and ear protection.",
        "Lifting: sheets bend and slip; two people, gloves, no lift over the head. Never stand under a tank on a hoist.",
        "Working through a hatch: somebody outside, moving air, nothing switched on that you cannot reach.",
        "Weld a test piece of the same sheet and rod and bend it before the first seam. Sheet and rod must be of one material; colour proves nothing.",
    ]);
    document.heading("In use");
    let mut uses = vec![
        "No pressure: the tank is vented, always. A blocked vent, or a hose locked into the filler, bursts or crushes flat walls.",
        "No fuel. Fuel tanks are under other laws.",
        "Drinking water: sheet, rod, gaskets and hoses must each be rated for it, and the certificates kept with the job. The tank is flushed before its first use. Nothing here certifies it.",
        "Liquids with detergents or surfactants can crack stressed polyethylene at far lower stress than water does. Ask the maker of the liquid.",
        "Frost: drain it, or leave room for ice to grow by a tenth.",
        "Pipes hang on their own brackets, never on the wall of the tank.",
    ];
    match plan.job.about.duty {
        Duty::Road => uses.push("On the road: the weight and where it sits load axles and coupling; compare with the plated limits at a weighbridge. Fixings, floor and straps are not worked out here unless a page says so."),
        Duty::Afloat => uses.push("Afloat: weight and free liquid move the boat's trim and stability; somebody who may judge that must."),
        Duty::Standing => {}
    }
    document.bullets(&uses);
}
