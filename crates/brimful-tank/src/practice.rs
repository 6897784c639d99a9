//! Rules of practice: what experience says goes wrong, each with where it comes from.

mod filling;

use crate::capacity::Capacity;
use crate::finding::{Finding, Grade, Quantity};
use crate::liquid::Compartment;
use crate::mass::MassTable;
use crate::panel::{Panel, Role};
use crate::port::ports;
use crate::space::Room;
use crate::way_in::TankEntry;
use brimful_geom::boolean::pieces;
use brimful_geom::plate::PlateFace;
use brimful_geom::solid::Solid;
use brimful_geom::vector::Point3;
use brimful_job::{Axis, Duty, Job, Service, Support};
use brimful_units::{Density, Length, Mass, Temperature};

/// Water grows by this share on freezing: 917 kg/m3 against 1000 (handbook value, from memory).
const ICE_GROWTH: f64 = 0.09;

/// A tank longer than this without baffles surges: 46 CFR 182.440(a)(8).
const LONGEST_WITHOUT_BAFFLE: Length = Length::from_mm(760.0);

/// Everything that practice has to say about a tank.
pub fn practice(
    job: &Job,
    body: &Solid,
    way_in: Option<&TankEntry>,
    panels: &[Panel],
    compartments: &[Compartment],
    capacity: &Capacity,
    mass: &MassTable,
) -> Vec<Finding> {
    let mut findings = Vec::new();
    findings.extend(way_in.map(TankEntry::finding));
    findings.extend(carried(job, body));
    findings.extend(liquid_known(job));
    findings.extend(apart(panels, compartments));
    findings.extend(payload(job, capacity, mass));
    findings.extend(not_worked_out(job));
    for compartment in compartments {
        findings.extend(vents(job, panels, compartments, compartment));
    }
    findings.extend(filling::kept_below(job, panels, compartments));
    findings.extend(freezing(job, capacity));
    findings.extend(usable_share(capacity));
    findings.extend(surge(job, compartments, panels));
    findings.extend(crossings(body));
    findings.extend(access(job, panels));
    findings
}

/// Whether what carries the tank is under it at all. Places of rails and feet are in the body's axes.
fn carried(job: &Job, body: &Solid) -> Option<Finding> {
    let (low, high) = body.bounds();
    let origin = job.body.as_ref().map_or([Length::ZERO; 3], |spec| spec.at);
    let under = |axis: Axis, at: Length| {
        let (low, high, shift) = match axis {
            Axis::X => (low.x, high.x, origin[0].m()),
            Axis::Y => (low.y, high.y, origin[1].m()),
            Axis::Z => (low.z, high.z, origin[2].m()),
        };
        low <= at.m() + shift && at.m() + shift <= high
    };
    let (all_under, what) = match &job.support {
        Support::Rails { along, at, .. } => {
            let across = if *along == Axis::X { Axis::Y } else { Axis::X };
            (at.iter().all(|&at| under(across, at)), "a rail")
        }
        Support::Straps { across, at, .. } => (at.iter().all(|&at| under(*across, at)), "a strap"),
        Support::Feet { at, .. } => (
            at.iter()
                .all(|at| under(Axis::X, at[0]) && under(Axis::Y, at[1])),
            "a foot",
        ),
        Support::Bed => (true, "the bed"),
        Support::Floor => {
            let floor = job
                .space
                .as_ref()
                .and_then(|space| Room::new(space).ok())
                .map(|room| room.shell.bounds().0.z);
            let stands = floor.is_none_or(|floor| low.z - floor <= FLOOR_PACKING);
            (stands, "the floor of the space")
        }
    };
    (!all_under).then(|| {
        Finding::new(
            Grade::Stop,
            "support",
            format!(
                "The tank does not stand on what the job says carries it: {what} is not under it."
            ),
        )
        .source("places of body and support in the job")
        .cure("Check where the body lies and the places of the support.")
        .entry("[body] at, [support] at")
    })
}

/// Foam, strips or a mat under a tank that stands on a floor are no thicker than this, metres
/// (common practice).
const FLOOR_PACKING: f64 = 0.030;

/// Liquids whose effect on the sheet nobody has stated, and densities that no liquid for these
/// tanks has.
fn liquid_known(job: &Job) -> Vec<Finding> {
    let density = job.liquid.density;
    let mut findings = Vec::new();
    let (low, high) = (Density::from_g_cm3(0.9), Density::from_g_cm3(2.0));
    if density < low || density > high {
        findings.push(
            Finding::new(Grade::Stop, "liquid", format!("A density of {:.2} g/cm3 belongs to no liquid these tanks are for: under 0.9 it is a fuel, an oil or a solvent, or a slip of the unit.", density.g_cm3()))
                .source("common practice")
                .cure("Check the number and its unit. Fuels are under other laws."),
        );
    }
    let kind = job.liquid.kind.as_deref().unwrap_or("");
    let plain = kind.contains("water") || kind == "milk";
    if !plain {
        findings.push(
            Finding::new(Grade::Mend, "liquid", "That sheet, rod, seals and fittings stand this liquid is not checked, nor what it does to people.")
                .source("no table of resistance is kept here")
                .cure("Ask the makers of sheet and fittings for this liquid at its strength and temperature; for acids, bleaches and the like follow the local rules on catch trays, labels and protection."),
        );
    }
    findings
}

/// Dividers that do not divide, and bays that nothing gets into or out of.
fn apart(panels: &[Panel], compartments: &[Compartment]) -> Vec<Finding> {
    let mut findings = Vec::new();
    for divider in panels.iter().filter(|panel| panel.role == Role::Divider) {
        let plate = &divider.finished;
        let middle = plate.outlines(PlateFace::Outside)[0].centroid();
        // A point just off either face.
        let beside = |z: f64| {
            plate
                .frame
                .world_from_frame(Point3::new(middle.x, middle.y, z))
        };
        let room = |point: Point3| nearest(compartments, point).map(|compartment| compartment.id);
        let off = 1e-4;
        if room(beside(off)) == room(beside(-plate.thickness - off)) {
            findings.push(
                Finding::new(Grade::Stop, &divider.name, "This divider does not divide: the liquid gets from one side of it to the other.")
                    .source("compartments worked out from the panels")
                    .cure("Let it reach from wall to wall, or call it a baffle."),
            );
        }
    }
    for compartment in compartments {
        let parts = pieces(&compartment.liquid).map_or(2, |parts| parts.len());
        if parts > 1 {
            findings.push(
                Finding::new(Grade::Stop, compartment.id.to_string(), "A baffle without any opening closes off part of it: no liquid gets there, and no air out.")
                    .figures(Quantity::Count(parts), Quantity::Count(1))
                    .source("compartments worked out from the panels")
                    .cure("Give the baffle air and drain gaps or holes, or make it a divider with ports on both sides."),
            );
        }
    }
    findings
}

/// The compartment whose surface is nearest to a point.
fn nearest(compartments: &[Compartment], point: Point3) -> Option<&Compartment> {
    compartments
        .iter()
        .min_by(|a, b| a.distance(point).total_cmp(&b.distance(point)))
}

fn middle_of(panel: &Panel) -> Point3 {
    let plate = &panel.finished;
    let middle = plate.outlines(PlateFace::Outside)[0].centroid();
    let halfway = Point3::new(middle.x, middle.y, -plate.thickness / 2.0);
    plate.frame.world_from_frame(halfway)
}

/// What the job tells and nothing here makes use of.
fn not_worked_out(job: &Job) -> Vec<Finding> {
    let mut findings = Vec::new();
    let vehicle = job.vehicle.as_ref();
    if vehicle.is_some_and(|vehicle| !vehicle.axles.is_empty() || vehicle.coupling.is_some()) {
        findings.push(
            Finding::new(
                Grade::Mend,
                "axles",
                "Loads on axles and coupling are not worked out.",
            )
            .cure("Take mass and centre of mass from the pack to whoever answers for the vehicle."),
        );
    }
    let quote = &job.quote;
    if quote.sheet.is_some() || quote.rod.is_some() || quote.hour.is_some() {
        findings.push(
            Finding::new(Grade::Note, "quote", "The tank is not priced yet.")
                .cure("Sheets, rod and hours are listed; price them by hand."),
        );
    }
    findings
}

/// The full tank against what the vehicle may carry, with the fill that it allows.
fn payload(job: &Job, capacity: &Capacity, mass: &MassTable) -> Option<Finding> {
    let payload = job.vehicle.as_ref()?.payload?;
    let (rated, empty) = (mass.state("rated")?, mass.state("empty")?);
    let brim = mass.state("brim")?;
    if rated.mass <= payload {
        return (brim.mass > payload).then(|| {
            Finding::new(Grade::Mend, "payload", "Filled past its rated capacity, to the brim, the tank weighs more than the vehicle may carry.")
                .figures(Quantity::Mass(brim.mass), Quantity::Mass(payload))
                .source("the payload left, as the job states it")
                .cure("Mark the highest fill on the tank, or set an overflow there.")
        });
    }
    let room = (payload - empty.mass).max(Mass::ZERO);
    let fill = (room / job.liquid.density).min(capacity.rated());
    let text = Quantity::Volume(fill).text(&job.about);
    Some(
        Finding::new(Grade::Stop, "payload", "The tank filled to its rated capacity weighs more than the vehicle may carry.")
            .figures(Quantity::Mass(rated.mass), Quantity::Mass(payload))
            .source("the payload left, as the job states it")
            .cure(format!("Fill to no more than {text}, or build a smaller tank. Axle loads are for the vehicle's maker or a licensed engineer to say.")),
    )
}

/// Vents and overflows of a compartment against what fills it.
fn vents(
    job: &Job,
    panels: &[Panel],
    all: &[Compartment],
    compartment: &Compartment,
) -> Vec<Finding> {
    let largest = |service: Service| {
        let ports = ports(job, panels, all, compartment, service);
        ports
            .iter()
            .map(|port| port.opening.size.largest())
            .fold(Length::ZERO, Length::max)
    };
    let (fill, vent, overflow) = (
        largest(Service::Fill),
        largest(Service::Vent),
        largest(Service::Overflow),
    );
    let liquid_way = fill.max(largest(Service::Draw));
    let mut findings = Vec::new();
    if vent > Length::ZERO && vent < liquid_way {
        findings.push(
            Finding::new(Grade::Mend, format!("vent of the {}", compartment.id), "The largest vent is smaller than the largest fill or draw opening: filling fast builds pressure, drawing fast builds suction.")
                .figures(Quantity::Length(vent), Quantity::Length(liquid_way))
                .source("ASTM D1998-13, 7.4: vent at least the larger of the fill or withdrawal connection")
                .cure("Make the vent larger, or fill with an air gap and draw slowly; never lock a hose into a tank without a way out for the air."),
        );
    }
    if fill > Length::ZERO && overflow == Length::ZERO {
        findings.push(
            Finding::new(Grade::Mend, format!("overflow of the {}", compartment.id), "The tank is filled but has no overflow: filled from a hose it is under pressure the moment it is full.")
                .source("common practice")
                .cure("Put in an overflow no smaller than the fill, or leave an air gap at the filler.")
                .entry("[[opening]] service = \"overflow\""),
        );
    }
    if overflow > Length::ZERO && overflow < fill {
        findings.push(
            Finding::new(
                Grade::Mend,
                format!("overflow of the {}", compartment.id),
                "The overflow is smaller than the fill and cannot carry what comes in.",
            )
            .figures(Quantity::Length(overflow), Quantity::Length(fill))
            .source("common practice: an overflow is no smaller than the inlet")
            .cure("Make the overflow at least as large as the fill."),
        );
    }
    findings
}

/// Room for ice, where the liquid may freeze.
fn freezing(job: &Job, capacity: &Capacity) -> Option<Finding> {
    let freezes = job.liquid.coldest < Temperature::from_degc(0.0);
    let room = capacity.brim() - capacity.rated();
    let needed = capacity.rated() * ICE_GROWTH;
    (freezes && room < needed).then(|| {
        Finding::new(
            Grade::Mend,
            "freezing",
            "The liquid may freeze, and the air space is less than what ice takes up.",
        )
        .figures(Quantity::Volume(room), Quantity::Volume(needed))
        .source("density of ice, from memory")
        .cure("Drain before frost, or leave a larger air space. Lines and valves freeze first.")
    })
}

fn usable_share(capacity: &Capacity) -> Option<Finding> {
    let usable = capacity.usable()?;
    let share = usable / capacity.rated();
    (share < 0.9).then(|| {
        Finding::new(
            Grade::Note,
            "capacity",
            "Less than nine tenths of the rated capacity is usable.",
        )
        .figures(Quantity::Ratio(share), Quantity::Ratio(0.9))
        .source("fire service practice: about 90 % of the nominal capacity")
        .cure("A lower outlet, a sump or a dip tube reaches more.")
    })
}

/// Long bays without baffles on the road or afloat, and events that nobody named.
fn surge(job: &Job, compartments: &[Compartment], panels: &[Panel]) -> Vec<Finding> {
    if job.about.duty == Duty::Standing {
        return Vec::new();
    }
    let mut findings = Vec::new();
    if job.events.is_empty() {
        findings.push(
            Finding::new(Grade::Stop, "events", "The tank moves, but no events are given: what the motion does to it is not covered.")
                .source("the duty of the job")
                .cure("Say what accelerations the vehicle or boat may see.")
                .entry("[[event]]"),
        );
    }
    for compartment in compartments {
        let (low, high) = compartment.room.bounds();
        let longest = Length::from_m((high.x - low.x).max(high.y - low.y));
        let baffled = panels.iter().any(|panel| {
            panel.role == Role::Baffle
                && nearest(compartments, middle_of(panel)) == Some(compartment)
        });
        if longest > LONGEST_WITHOUT_BAFFLE && !baffled {
            findings.push(
                Finding::new(
                    Grade::Mend,
                    compartment.id.to_string(),
                    "It is long and has no baffle: part full, the liquid will surge.",
                )
                .figures(
                    Quantity::Length(longest),
                    Quantity::Length(LONGEST_WITHOUT_BAFFLE),
                )
                .source("46 CFR 182.440(a)(8), taken over from fuel tanks of small craft")
                .cure("Put in a baffle.")
                .entry("[[inner]] kind = \"baffle\""),
            );
        }
    }
    if panels.iter().any(|panel| panel.role == Role::Baffle) {
        findings.push(
            Finding::new(
                Grade::Note,
                "baffles",
                "How far the baffles calm the liquid is not computed here.",
            )
            .source("no published curve of surge against open area was found"),
        );
    }
    findings
}

/// Corners where four or more seams run together.
fn crossings(body: &Solid) -> Option<Finding> {
    let edges = body.edges();
    let seams_at = |vertex: usize| {
        edges
            .iter()
            .filter(|edge| edge.from == vertex || edge.to == vertex)
            .count()
    };
    let crowded = (0..body.vertices.len())
        .filter(|&vertex| seams_at(vertex) > 3)
        .count();
    (crowded > 0).then(|| {
        Finding::new(
            Grade::Mend,
            "seams",
            format!("At {crowded} corner(s) of the body four or more seams run together."),
        )
        .figures(Quantity::Count(crowded), Quantity::Count(0))
        .source("common practice: no crossing of four seams")
        .cure("Blunt the corner, or accept a weak point there and test it well.")
    })
}

/// Every compartment should be reached by a hand.
fn access(job: &Job, panels: &[Panel]) -> Option<Finding> {
    let hatch = job
        .openings
        .iter()
        .any(|opening| opening.service == Service::Hatch);
    let baffles = panels
        .iter()
        .filter(|panel| panel.role == Role::Baffle)
        .count();
    (!hatch).then(|| {
        let bays = if baffles > 0 {
            " Each bay between baffles needs a way in for a hand or a hose."
        } else {
            ""
        };
        Finding::new(
            Grade::Note,
            "access",
            format!("There is no hatch: the tank cannot be cleaned or looked into.{bays}"),
        )
        .source("common practice")
        .cure("Put in a hatch.")
        .entry("[[opening]] service = \"hatch\"")
    })
}
