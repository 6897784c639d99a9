//! What the liquids themselves ask for: known ones, none too light, no ice, and nothing beside drinking water.

use brimful_job::{Attacks, Job, Liquid};
use brimful_panels::capacity::{Capacity, CompartmentCapacity};
use brimful_panels::finding::kind::{PracticeKind, Rule};
use brimful_panels::finding::{Finding, Grade, Part, Quantity, Subject};
use brimful_panels::liquid::{Compartment, liquids_held, touched_faces};
use brimful_panels::panel::{Panel, Role};
use brimful_units::{Density, Temperature, Volume};

/// Water grows by this share on freezing: 917 kg/m3 against 1000 (handbook value, from memory).
const ICE_GROWTH: f64 = 0.09;

/// Liquids whose effect on the sheet nobody has stated, densities that no liquid for these tanks has, and
/// those set below the table's.
pub fn known(job: &Job, compartments: &[Compartment]) -> Vec<Finding> {
    let held = liquids_held(job, compartments).into_iter();
    held.flat_map(|(subject, liquid)| of_liquid(liquid, &subject))
        .collect()
}

fn of_liquid(liquid: &Liquid, subject: &Subject) -> Vec<Finding> {
    let density = liquid.density;
    let mut findings = Vec::new();
    let mut tell = |grade, kind| findings.push(Finding::of(grade, subject.clone(), kind));
    let (least, greatest) = (Density::from_g_cm3(0.9), Density::from_g_cm3(2.0));
    if density < least || density > greatest {
        tell(Grade::Stop, PracticeKind::NoSuchLiquid { density, least });
    }
    let unanswered = liquid.medium_factor.is_none();
    if let Some(attacks) = liquid.attacks().filter(|_| unanswered) {
        let oxidiser = attacks == Attacks::Oxidiser;
        tell(Grade::Stop, PracticeKind::MakerHasToAnswer { oxidiser });
    }
    let kind = liquid.kind.as_deref().unwrap_or("");
    let plain = kind.contains("water") || kind == "milk";
    if !plain {
        tell(Grade::Mend, PracticeKind::LiquidUnknown);
    }
    if let Some(table) = liquid.table_density().filter(|table| density < *table) {
        let own = density;
        let kind = PracticeKind::BelowRule(Rule::Density { own, table });
        tell(Grade::Mend, kind);
    }
    findings
}

/// Liquids that freeze, and the room for their ice; of one whose freezing point is not known, the latter
/// alone, where water would freeze. With antifreeze in it the table's value no longer holds, and what does is
/// for whoever mixes it.
pub fn frost(job: &Job, compartments: &[Compartment], capacity: &Capacity) -> Vec<Finding> {
    let of_job = |row: &CompartmentCapacity| {
        let own = compartments.iter().find(|room| room.id == row.id);
        own.is_some_and(|room| room.holds_liquid_of(job))
    };
    let held = liquids_held(job, compartments).into_iter();
    held.flat_map(|(subject, liquid)| {
        let rows = capacity.compartments.iter().filter(|row| match &subject {
            Subject::Compartment(id) => row.id == *id,
            _ => of_job(row),
        });
        let rows: Vec<&CompartmentCapacity> = rows.collect();
        let subject = match subject {
            Subject::Part(_) => Subject::Part(Part::Freezing),
            of_room => of_room,
        };
        ice(liquid, &subject, &rows)
    })
    .collect()
}

fn ice(liquid: &Liquid, subject: &Subject, rows: &[&CompartmentCapacity]) -> Vec<Finding> {
    let coldest = liquid.coldest;
    let known = liquid.freezes_at();
    let freezes = known.is_some_and(|freezes| coldest <= freezes);
    let may_freeze = freezes || known.is_none() && coldest < Temperature::from_degc(0.0);
    if !may_freeze {
        return Vec::new();
    }
    let guarded = liquid.additives.iter().any(|it| it == "antifreeze");
    let grade = if guarded { Grade::Note } else { Grade::Mend };
    let told = |freezes| {
        Finding::of(grade, subject.clone(), PracticeKind::Freezes { guarded }).figures(
            Quantity::Temperature(coldest),
            Quantity::Temperature(freezes),
        )
    };
    let mut findings: Vec<Finding> = known.map(told).into_iter().collect();
    let brim: Volume = rows.iter().map(|row| row.brim).sum();
    let rated: Volume = rows.iter().map(|row| row.rated).sum();
    let (room, needed) = (brim - rated, rated * ICE_GROWTH);
    if room < needed {
        findings.push(
            Finding::of(grade, subject.clone(), PracticeKind::LittleRoomForIce)
                .figures(Quantity::Volume(room), Quantity::Volume(needed)),
        );
    }
    findings
}

/// Dividers with drinking water on one side and another liquid on the other: a leak in a single wall is
/// seen by nobody.
pub fn drinking_water_beside_other(panels: &[Panel], compartments: &[Compartment]) -> Vec<Finding> {
    let dividers = panels.iter().filter(|panel| panel.role == Role::Divider);
    dividers
        .filter_map(|divider| {
            let (drinking, other) = parted(divider, compartments)?;
            let kind = PracticeKind::DrinkingWaterBesideOther {
                drinking: drinking.id,
                other: other.id,
            };
            Some(Finding::of(
                Grade::Stop,
                Subject::Panel(divider.name.clone()),
                kind,
            ))
        })
        .collect()
}

/// The compartments with drinking water and with another liquid on the two sides of a divider, if it has such.
fn parted<'a>(
    divider: &Panel,
    compartments: &'a [Compartment],
) -> Option<(&'a Compartment, &'a Compartment)> {
    let holding = compartments.iter().filter(|room| room.holds_liquid());
    let beside: Vec<(&Compartment, [bool; 2])> = holding
        .map(|room| (room, touched_faces(&room.room, divider)))
        .collect();
    let (drinking, others): (Vec<_>, Vec<_>) = beside
        .into_iter()
        .partition(|(room, _)| room.contents.is_drinking_water());
    drinking.into_iter().find_map(|(room, [one, other])| {
        let is_across = |faces: &[bool; 2]| one && faces[1] || other && faces[0];
        let across = others.iter().find(|(_, faces)| is_across(faces))?;
        Some((room, across.0))
    })
}
