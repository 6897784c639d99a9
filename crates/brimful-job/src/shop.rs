//! `[shop]`: how the shop cuts and welds, and how fast.

use super::fault::OutOfRange;
use super::reader::{Bound, Field, Section};
use brimful_units::{Angle, Length, Speed, Time};

/// How the shop cuts and welds, and how fast.
#[derive(Clone, Debug, PartialEq)]
pub struct Shop {
    /// Saw or router.
    pub cutting: Cutting,
    /// The width of a cut: the blade's, or the cutter's diameter.
    pub kerf: Length,
    /// Cut off each edge of a fresh sheet before measuring from it.
    pub trim: Length,
    /// The longest cut the saw can make across a sheet; none: no limit.
    pub crosscut: Option<Length>,
    /// The welding process.
    pub process: Process,
    /// The nozzle of the hot-gas gun.
    pub nozzle: Nozzle,
    /// The root opening left between two edges.
    pub gap: Length,
    /// The angle between the two faces of a V groove.
    pub groove_angle: Angle,
    /// Left on every welded edge for scraping and shrinkage.
    pub edge_allowance: Length,
    /// How true the cut is, either way.
    pub saw_tolerance: Length,
    /// The radius of inside corners, at least 3 mm.
    pub relief_radius: Length,
    /// How far an arm with the gun reaches past an edge.
    pub reach: Length,
    /// From the tip of the nozzle to the middle of the hand that holds the gun.
    pub gun_length: Length,
    /// The gun at its thickest in front of the hand, guard and all.
    pub gun_diameter: Length,
    /// The room that the hand on the gun takes, across.
    pub hand: Length,
    /// How many hands there are, two to a person.
    pub hands: u8,
    /// By what share a bead draws in along itself, as a coupon of the shop has shown; none: not measured.
    pub pull: Option<f64>,
    /// How fast the shop works.
    pub rates: Rates,
}

/// Saw or router.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Cutting {
    /// Straight cuts from edge to edge.
    Saw,
    /// Any outline.
    Router,
}

/// The welding process.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Process {
    /// Hot gas and rod.
    HotGas,
    /// Hand extruder.
    Extrusion,
}

/// The nozzle of the hot-gas gun.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Nozzle {
    /// Draws the rod along.
    Speed,
    /// Fanned by hand.
    Round,
}

/// How fast the shop works. None is published; each default says so.
#[derive(Clone, Debug, PartialEq)]
pub struct Rates {
    /// Laying one run.
    pub weld_speed: Speed,
    /// Tacking along a seam.
    pub tack_speed: Speed,
    /// Scraping and cleaning both edges of a seam, once for every run.
    pub scrape_speed: Speed,
    /// Sawing or routing along a cut.
    pub cut_speed: Speed,
    /// Marking, lifting and setting one panel.
    pub panel_time: Time,
    /// Starting and ending one run.
    pub run_time: Time,
    /// Cutting one opening and fitting what goes in it.
    pub opening_time: Time,
    /// Rod used over the net volume of the groove.
    pub rod_factor: f64,
}

const CUTTINGS: [(&str, Cutting); 2] = [("saw", Cutting::Saw), ("router", Cutting::Router)];
pub(super) const PROCESSES: [(&str, Process); 2] = [
    ("hot gas", Process::HotGas),
    ("extrusion", Process::Extrusion),
];
const NOZZLES: [(&str, Nozzle); 2] = [("speed", Nozzle::Speed), ("round", Nozzle::Round)];
/// A sharper inside corner starts a crack.
const SMALLEST_RELIEF: Length = Length::from_mm(3.0);
/// Five people round one tank.
const MOST_HANDS: u32 = 10;

impl Shop {
    /// Reads `[shop]`.
    pub(super) fn read(section: &Section<'_>) -> Option<Self> {
        let cutting = section.defaulted("cutting", |field| field.choice(&CUTTINGS));
        let process = section.defaulted("process", |field| field.choice(&PROCESSES));
        let nozzle = section.defaulted("nozzle", |field| field.choice(&NOZZLES));
        let size = |field: &Field<'_>| field.length(Bound::AboveZero);
        let allowance = |field: &Field<'_>| field.length(Bound::NotNegative);
        let kerf = section.defaulted_for("kerf", word_of(&CUTTINGS, cutting), allowance);
        let trim = section.defaulted("trim", allowance);
        let crosscut = section.optional("crosscut", size);
        let of_process = word_of(&PROCESSES, process);
        let gap = section.defaulted_for("gap", of_process, allowance);
        let groove_angle = section.defaulted("groove_angle", read_groove_angle);
        let edge_allowance = section.defaulted("edge_allowance", allowance);
        let saw_tolerance = section.defaulted("saw_tolerance", allowance);
        let relief_radius =
            section.defaulted("relief_radius", |field| field.radius(SMALLEST_RELIEF));
        let reach = section.defaulted("reach", size);
        let gun_length = section.defaulted_for("gun_length", of_process, size);
        let gun_diameter = section.defaulted_for("gun_diameter", of_process, size);
        let hand = section.defaulted("hand", size);
        let hands = section.defaulted("hands", |field| field.whole(1..=MOST_HANDS));
        let pull = section.optional("pull", read_pull);
        let rates = Rates::read(section, process, nozzle);
        section.refuse_unknown_keys();
        Some(Self {
            cutting: cutting?,
            kerf: kerf?,
            trim: trim?,
            crosscut: crosscut?,
            process: process?,
            nozzle: nozzle?,
            gap: gap?,
            groove_angle: groove_angle?,
            edge_allowance: edge_allowance?,
            saw_tolerance: saw_tolerance?,
            relief_radius: relief_radius?,
            reach: reach?,
            gun_length: gun_length?,
            gun_diameter: gun_diameter?,
            hand: hand?,
            hands: u8::try_from(hands?).ok()?,
            pull: pull?,
            rates: rates?,
        })
    }
}

impl Rates {
    fn read(
        section: &Section<'_>,
        process: Option<Process>,
        nozzle: Option<Nozzle>,
    ) -> Option<Self> {
        let speed = |field: &Field<'_>| field.quantity_above_zero();
        let time = |field: &Field<'_>| field.quantity_above_zero();
        let weld_choice = match (process, nozzle) {
            (Some(Process::Extrusion), _) => "extrusion",
            (_, Some(Nozzle::Round)) => "hot gas, round",
            _ => "hot gas, speed",
        };
        let weld_speed = section.defaulted_for("weld_speed", weld_choice, speed);
        let tack_speed = section.defaulted("tack_speed", speed);
        let scrape_speed = section.defaulted("scrape_speed", speed);
        let cut_speed = section.defaulted("cut_speed", speed);
        let panel_time = section.defaulted("panel_time", time);
        let run_time = section.defaulted("run_time", time);
        let opening_time = section.defaulted("opening_time", time);
        let rod_factor = section.defaulted("rod_factor", read_rod_factor);
        Some(Self {
            weld_speed: weld_speed?,
            tack_speed: tack_speed?,
            scrape_speed: scrape_speed?,
            cut_speed: cut_speed?,
            panel_time: panel_time?,
            run_time: run_time?,
            opening_time: opening_time?,
            rod_factor: rod_factor?,
        })
    }
}

/// The word of a choice, for its default; the first where the choice could not be read.
fn word_of<T: PartialEq>(words: &[(&'static str, T)], choice: Option<T>) -> &'static str {
    let found = words
        .iter()
        .find(|(_, meaning)| Some(meaning) == choice.as_ref());
    found.or(words.first()).map_or("", |(word, _)| word)
}

fn read_groove_angle(field: &Field<'_>) -> Option<Angle> {
    field.angle_within(Angle::from_deg(30.0)..=Angle::from_deg(120.0))
}

fn read_pull(field: &Field<'_>) -> Option<f64> {
    // Plastic draws in by a few hundredths; more than a tenth is a slip of the point.
    let (least, most) = (0.0005, 0.1);
    field.number_within(least..=most, OutOfRange::Number { least, most })
}

fn read_rod_factor(field: &Field<'_>) -> Option<f64> {
    let (least, most) = (1.0, 10.0);
    field.number_within(least..=most, OutOfRange::Number { least, most })
}
