//! The whole-tank strength check, in words.

use super::said::Said;
use crate::text::Text;
use crate::words::Words;
use brimful_geom::vector::Point3;
use brimful_job::Support;
use brimful_mech::shell::Fault;
use brimful_panels::case::CaseId;
use brimful_panels::finding::kind::{NoModel, StrengthKind, Toward};
use brimful_panels::growth::WELDED;
use brimful_panels::table::friction::{FrictionEnd, friction};
use brimful_strength::whole::{BED_GIVES, BED_PRESSURE, SPOT_WIDTH};

pub(super) fn said(words: &Words<'_>, kind: &StrengthKind) -> Said {
    match kind {
        StrengthKind::CaseNotCovered(of) => {
            let reason = words.not_covered(of);
            Said::new(say!(words, "Not covered by the strength check: {reason}.", reason = reason))
                .source(say!(words, "tables of materials and factors"))
                .cure(words.cure_of_not_covered(of))
        }
        StrengthKind::NoModel(of) => {
            let reason = words.no_model(of);
            Said::new(say!(words, "The whole-tank check cannot be done: {reason}.", reason = reason))
                .source(method(words))
                .cure(match of {
                    NoModel::NotCarried => say!(words, "Put the support under the tank."),
                    NoModel::Shell(_) => say!(words, "Hold the tank, or support it, so that it cannot move as a whole."),
                    NoModel::InnerPanel { .. } => say!(words, "Move the inner panel, or make it simpler."),
                    NoModel::Body(_) | NoModel::Mesh(_) => say!(words, "Make the body simpler: fewer short edges, no sliver of a face."),
                })
        }
        StrengthKind::NoAnswer { case, fault, near } => {
            no_answer(words, *case, fault, *near).source(method(words))
        }
        StrengthKind::SheetOverLimit { case, at } => Said::new(say!(words, "The stress in the sheet is over what is allowed, {worst}.", worst = words.worst_at(*at, *case)))
            .source(allowed(words))
            .cure(stronger(words)),
        StrengthKind::Bulge { case, at } => Said::new(say!(words, "It bulges more than the job allows, {worst}.", worst = words.worst_at(*at, *case)))
            .source(say!(words, "the bulge that the job allows"))
            .cure(say!(words, "Thicker sheet, or a baffle, rib or stay nearer.")),
        StrengthKind::SeamNotMeshed => Said::new(say!(words, "Not covered by the strength check: this seam is on no line of its mesh."))
            .source(method(words))
            .cure(say!(words, "Simplify the shape near it.")),
        StrengthKind::RootOpens { case, at } => Said::new(say!(words, "Welded from one side only, its root is pulled open, {worst}: there its stress counts twice.", worst = words.worst_at(*at, *case)))
            .source(allowed(words))
            .cure(say!(words, "Weld it from the other side as well, choose a joint with two sides, or stiffen the panels beside it.")),
        StrengthKind::RootAtLimit { case, at } => Said::new(say!(words, "Welded from one side only, its root is pulled open for seconds, {worst}. It holds if that takes nothing off, and does not if its stress counts twice, as it does here: nobody has measured which.", worst = words.worst_at(*at, *case)))
            .source(allowed(words))
            .cure(say!(words, "Settle it: weld test strips from one side as planned and bend them with the root pulled open; if they bend as far as strips with the face pulled, it counts in full. Else weld it from the other side as well, or stiffen the panels beside it.")),
        StrengthKind::WeldOverLimit { case, at } => Said::new(say!(words, "The stress in the weld is over what is allowed, {worst}.", worst = words.worst_at(*at, *case)))
            .source(allowed(words))
            .cure(stronger(words)),
        StrengthKind::AtLimit { weld, width, case, at } => {
            let (worst, width) = (words.worst_at(*at, *case), words.percent(*width));
            Said::new(match weld {
                true => say!(words, "The stress in the weld is at its limit: it or the limit may be off by {width}, so that it may hold or not, {worst}.", width = width, worst = worst),
                false => say!(words, "The stress in the sheet is at its limit: it or the limit may be off by {width}, so that it may hold or not, {worst}.", width = width, worst = worst),
            })
            .source(allowed(words))
            .cure(match weld {
                true => say!(words, "Settle it: weld and break a test piece of this sheet and rod, or ask the sheet's maker for its creep strength; else a little more strength, or a few degrees cooler."),
                false => say!(words, "Settle it: ask the sheet's maker for its creep strength and modulus; else a little more strength, or a few degrees cooler."),
            })
        }
        StrengthKind::AddUp { shares } => {
            /// Loads that are named.
            const NAMED: usize = 4;
            /// Ten lives and ten thousand are alike: by far too much.
            const MANY_LIVES: f64 = 10.0;
            let share = |(case, share): &(CaseId, f64)| match *share > MANY_LIVES {
                true => say!(words, "over {share} by {case}", share = words.percent(MANY_LIVES), case = words.case(*case)),
                false => say!(words, "{share} by {case}", share = words.percent(*share), case = words.case(*case)),
            };
            let takes_all = shares.iter().map(|(_, share)| share).sum::<f64>() > 1.0;
            let told = Text::join(shares.iter().take(NAMED).map(share), ", ");
            Said::new(match takes_all {
                true => say!(words, "Its loads together take more than all of its life: {shares}. The figure is its stresses against those under which the shares would be all of it.", shares = told),
                false => say!(words, "Its loads together take nearly all of its life that its limit is sure of: {shares}. The figure is its stresses against those under which the shares would be all of it.", shares = told),
            })
                .source(say!(words, "Miner's rule as creep standards of plastics use it (EN ISO 13760, scope seen)"))
                .cure(stronger(words))
        }
        StrengthKind::Buckles { case, at } => Said::new(say!(words, "It buckles under too little more than the load, {worst}: the figure is how many times the load it bears.", worst = words.worst_at(*at, *case)))
            .source(say!(words, "linear buckling, and the load raised with large displacements; twice the load is asked for (DVS 2205-2 and EN 1778, from memory)"))
            .cure(say!(words, "Thicker sheet, or a rib, stay or baffle there; for suction a larger vent.")),
        StrengthKind::WithinMeshError { case } => Said::new(say!(words, "It may ask for more than there is: the figure is what it asks for at most, with the estimated error of the mesh ({case}).", case = words.case(*case)))
            .source(say!(words, "estimated error from two or three meshes (L. F. Richardson 1911, extrapolation; from memory)"))
            .cure(say!(words, "A little more strength, or round off what is sharp there: a reinforcement at the end of a baffle's foot, no notch.")),
        StrengthKind::Tips { case } => Said::new(say!(words, "The tank tips over or leaves its support ({case}).", case = words.case(*case)))
            .source(method(words))
            .cure(say!(words, "Put the supports under its weight, further apart, or hold the tank down.")),
        StrengthKind::Slides { case, toward, force, friction } => {
            let (toward, force, case) = (words.toward(*toward), words.force(*force), words.case(*case));
            Said::new(match friction {
                Some(friction) => say!(words, "Friction of {friction} does not keep it from sliding {toward}: {force} must be held there by chocks or straps ({case}).", friction = words.ratio(*friction), toward = toward, force = force, case = case),
                None => say!(words, "In its straps it swings {toward}: {force} must be held there by chocks ({case}).", toward = toward, force = force, case = case),
            })
            .cure(say!(words, "Stand the foot of that wall against a chock or a strip of the bulkhead, over all of its width, and say so; or hold it by straps for that force."))
            .entry("[support] chocks")
        }
        StrengthKind::Lifts { case, force } => Said::new(say!(words, "It is lifted off its support: {force} must be held down ({case}).", force = words.force(*force), case = words.case(*case)))
            .source(method(words))
            .cure(say!(words, "Straps over the tank, or a frame over its edges, for that force.")),
        StrengthKind::CoverNotChecked { case, pressure, force } => Said::new(say!(words, "Its cover is not checked: it has to bear {pressure}, {force} in all ({case}), with its ring and screws.", pressure = words.pressure(*pressure), force = words.force(*force), case = words.case(*case)))
            .source(method(words))
            .cure(say!(words, "Take one that its maker rates for that, or say how thick a cover of sheet is."))
            .entry("[[opening]] cover"),
        StrengthKind::CoverOverLimit { case } => Said::new(say!(words, "The stress in its cover is over what is allowed ({case}).", case = words.case(*case)))
            .source(say!(words, "plate hinged at its rim, under pressure, what hangs on it and who stands on its middle (Roark's Formulas for Stress and Strain, tables 11.2 and 11.4, from memory)"))
            .cure(say!(words, "A thicker cover, a smaller hatch, or a rib across the cover."))
            .entry("[[opening]] cover"),
        StrengthKind::BaffleWithoutEvent => Said::new(say!(words, "Not covered by the strength check: a baffle of a moving tank whose job names no event that would throw liquid against it."))
            .source(say!(words, "Liquid at rest presses on both its sides alike"))
            .cure(say!(words, "Name the events that it meets on the way."))
            .entry("[[event]] name = \"braking\""),
        StrengthKind::NarrowStrip => Said::new(say!(words, "It is too narrow for its thickness to be computed as a thin plate: it is taken as stiffer against twisting than it is."))
            .source(say!(words, "Torsion of a rectangle (S. Timoshenko, J. N. Goodier, Theory of Elasticity; from memory): a thin plate is 14 % too stiff at five thicknesses"))
            .cure(say!(words, "Make it wider, or of thinner sheet.")),
        StrengthKind::NoLid => Said::new(say!(words, "Not covered by the strength check: somebody may stand on the lid, and no panel of this tank lies like one."))
            .source(say!(words, "what the job lets stand on the lid"))
            .cure(say!(words, "Let nobody stand on it and keep everybody off, or make the top flatter than 60 degrees.")),
        StrengthKind::NotBorne => Said::new(say!(words, "Nothing of the full tank bears on its support."))
            .source(method(words))
            .cure(say!(words, "Check the places of the support against the floor.")),
        StrengthKind::MediumFactorUnsure { of } => Said::new(say!(words, "What is in the liquid weakens stressed plastic by a factor that nobody has published: {factor}.", factor = words.sourced_value(of)))
            .cure(say!(words, "Ask the maker of the sheet for its factor A2 with this liquid.")),
        StrengthKind::Assumptions => Said::new(Text::join(words.strength_assumptions(), " "))
            .source(say!(words, "assumptions of the whole-tank check")),
    }
}

fn no_answer(words: &Words<'_>, case: CaseId, fault: &Fault, near: Option<Point3>) -> Said {
    let case = words.case(case);
    let near = words.place(near.unwrap_or(Point3::ORIGIN));
    match fault {
        Fault::Mechanism { .. } => Said::new(say!(words, "Part of the tank is loose: near {near} it can move without resistance ({case}).", near = near, case = case))
            .cure(say!(words, "See that every panel is welded to others along its edges, and that the support holds the tank down and sideways.")),
        Fault::NotConverged { reached, .. } => Said::new(say!(words, "No equilibrium is found beyond {reached} of the load; it gives way near {near} ({case}).", reached = words.percent(*reached), near = near, case = case))
            .cure(say!(words, "Thicker sheet, a rib, stay or baffle there, or hold the tank down: it may lift off its support.")),
        Fault::Unstable { stable, .. } => Said::new(say!(words, "The tank buckles or snaps at {stable} of the load or a little more, near {near} ({case}).", stable = words.percent(*stable), near = near, case = case))
            .cure(say!(words, "Thicker sheet, or a rib, stay or baffle there.")),
        Fault::Chatter { .. } => Said::new(say!(words, "Whether the tank bears on its support near {near} does not settle ({case}).", near = near, case = case))
            .cure(say!(words, "Hold the tank down, or support it along more of its floor.")),
        other => Said::new(say!(words, "No answer is found: {fault} ({case}).", fault = words.shell(other), case = case))
            .cure(say!(words, "Simplify the shape of the tank.")),
    }
}

fn method(words: &Words<'_>) -> Text {
    say!(
        words,
        "whole-tank shell: flat triangles (Batoz, Bathe & Ho 1980; Felippa 2003), large displacements (Felippa & Haugen 2005)"
    )
}

fn allowed(words: &Words<'_>) -> Text {
    say!(
        words,
        "Allowable stress by the form of DVS 2205-1 (from memory), factors listed with the load case"
    )
}

fn stronger(words: &Words<'_>) -> Text {
    say!(
        words,
        "Thicker sheet, a baffle, rib or stay nearer, a lower fill, or cooler liquid."
    )
}

impl Words<'_> {
    fn toward(&self, toward: Toward) -> Text {
        match toward {
            Toward::Front => say!(self, "to the front"),
            Toward::Rear => say!(self, "to the rear"),
            Toward::Left => say!(self, "to the left"),
            Toward::Right => say!(self, "to the right"),
        }
    }

    /// What the whole-tank check takes for granted.
    pub fn strength_assumptions(&self) -> Vec<Text> {
        let mut all = vec![
            say!(
                self,
                "Panels are thin plates in the middle of their sheets, welded stiffly along their seams."
            ),
            say!(
                self,
                "Pressure acts on the middle of the sheet, which is a little more than it has to bear."
            ),
            say!(
                self,
                "Bending is judged at the face of the sheet that another is welded to, not behind it where their middles cross."
            ),
            say!(
                self,
                "Next to the end of a foot or an inside corner stress is read one thickness of the sheet away from it: what a sharp notch does nearer than that is not computed."
            ),
            say!(
                self,
                "{filled}; in an event the liquid is taken as still, pressing by the tilted pull alone. Each baffle has to bear all that is behind it with nothing ahead; the blow of a wave in a part-full tank is not in it.",
                filled = self.filled_to()
            ),
            say!(
                self,
                "Short runs through corners are laid by hot gas where an extruder lays the long ones, and count with its lower weld factor."
            ),
            say!(
                self,
                "An event comes on top of what has crept at rest, with the stiffness of seconds."
            ),
            say!(
                self,
                "The support gives way by {depth} under {pressure}, pushes and never pulls, and holds the tank sideways a tenth as stiffly; where the tank grows or shrinks, by friction of {friction} of its weight at most.",
                depth = self.thickness(BED_GIVES),
                pressure = self.pressure(BED_PRESSURE),
                friction = self.ratio(friction(FrictionEnd::Most).value),
            ),
            match self.job.chocks {
                None => say!(
                    self,
                    "What friction does not hold of a push sideways is held evenly under the floor."
                ),
                Some(_) => say!(
                    self,
                    "Chocks stand against the foot of their walls without squeezing it, and take what friction does not hold of a push towards them; what friction and chocks do not hold is held evenly under the floor."
                ),
            },
            say!(
                self,
                "Fittings do not stiffen the panels, and burden them where the job says what they weigh; the pressure on a hatch's cover goes to the rim of its hole."
            ),
            say!(
                self,
                "All of the tank is as warm as its liquid: what the sun on a lid over cold liquid does is not in it. It is welded at {welded} and grows against what holds it sideways.",
                welded = self.temperature(WELDED)
            ),
        ];
        if matches!(self.job.support, Support::Straps { .. }) {
            all.push(say!(self, "Straps hang straight down and push on the two lower edges they run round, up and inward alike, without friction; between those edges they carry nothing. Something keeps the tank from swinging."));
        }
        all.push(match self.job.checks.lid_load {
            None => say!(self, "Nothing stands on the lid."),
            Some(_) => say!(self, "What stands on the lid does so on a spot {width} wide, on the empty tank: where the lid is furthest from what holds it up, beside each opening, between two, and in the middle of a cover of sheet.", width = self.length(SPOT_WIDTH)),
        });
        all
    }
}
