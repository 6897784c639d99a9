//! `[shop]`: how the shop cuts and welds, and how fast.

use super::fault::{Items, OutOfRange};
use super::reader::{Bound, Field, Section};
use brimful_units::{Angle, FlowRate, Length, MassRate, Speed, Time};
use std::ops::RangeInclusive;

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
    /// The sizes of rod that the shop's speed nozzles take; empty: not said.
    pub nozzle_sizes: Vec<Length>,
    /// The size of the shop's hand extruder.
    pub extruder: Extruder,
    /// What the extruder is rated at.
    pub output: MassRate,
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

/// The size of a hand extruder.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Extruder {
    /// Held in one hand.
    Small,
    /// Held in two.
    Medium,
    /// For thick sheet and long seams.
    Large,
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
    /// Chamfering or bevelling along an edge that is to be welded.
    pub bevel_speed: Speed,
    /// Cutting one hole.
    pub hole_time: Time,
    /// Marking, lifting and setting one panel.
    pub panel_time: Time,
    /// Setting one clamp and taking it off again.
    pub clamp_time: Time,
    /// Starting and ending one run.
    pub run_time: Time,
    /// Turning the tank over once, of each person that it takes.
    pub turn_time: Time,
    /// Fitting what goes in one opening.
    pub opening_time: Time,
    /// Looking at all seams and taking the readings at one stage of the leak test.
    pub stage_time: Time,
    /// How fast water runs in for the leak test.
    pub fill_rate: FlowRate,
    /// Rod used over the net volume of the groove.
    pub rod_factor: f64,
}

const CUTTINGS: [(&str, Cutting); 2] = [("saw", Cutting::Saw), ("router", Cutting::Router)];
pub(super) const PROCESSES: [(&str, Process); 2] = [
    ("hot gas", Process::HotGas),
    ("extrusion", Process::Extrusion),
];
const EXTRUDERS: [(&str, Extruder); 3] = [
    ("small", Extruder::Small),
    ("medium", Extruder::Medium),
    ("large", Extruder::Large),
];
const NOZZLES: [(&str, Nozzle); 2] = [("speed", Nozzle::Speed), ("round", Nozzle::Round)];
/// A sharper inside corner starts a crack.
const SMALLEST_RELIEF: Length = Length::from_mm(3.0);
/// What gun, hand and arm are between, generously: a slip of the unit would have every seam reached, or none.
const REACHES: RangeInclusive<Length> = Length::from_mm(100.0)..=Length::from_mm(2000.0);
const GUN_LENGTHS: RangeInclusive<Length> = Length::from_mm(80.0)..=Length::from_mm(1200.0);
const GUN_DIAMETERS: RangeInclusive<Length> = Length::from_mm(20.0)..=Length::from_mm(300.0);
const HANDS: RangeInclusive<Length> = Length::from_mm(50.0)..=Length::from_mm(250.0);
/// More nozzles than any gun comes with.
const MOST_NOZZLES: usize = 20;
/// Five people round one tank.
const MOST_HANDS: u32 = 10;

impl Shop {
    /// Reads `[shop]`.
    pub(super) fn read(section: &Section<'_>) -> Option<Self> {
        let cutting = section.defaulted("cutting", |field| field.choice(&CUTTINGS));
        let process = section.defaulted("process", |field| field.choice(&PROCESSES));
        let nozzle = section.defaulted("nozzle", |field| field.choice(&NOZZLES));
        let extruder = section.defaulted("extruder", |field| field.choice(&EXTRUDERS));
        let of_size = word_of(&EXTRUDERS, extruder);
        let output = section.defaulted_for("output", of_size, |field| field.quantity_above_zero());
        let size = |field: &Field<'_>| field.length(Bound::AboveZero);
        let nozzle_sizes = section.optional("nozzle_sizes", |field| {
            field.all(1..=MOST_NOZZLES, Items::Lengths, size)
        });
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
        let reach = section.defaulted("reach", |field| field.length_within(REACHES));
        let gun_length = section.defaulted_for("gun_length", of_process, |field| {
            field.length_within(GUN_LENGTHS)
        });
        let gun_diameter = section.defaulted_for("gun_diameter", of_process, |field| {
            field.length_within(GUN_DIAMETERS)
        });
        let hand = section.defaulted("hand", |field| field.length_within(HANDS));
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
            nozzle_sizes: nozzle_sizes?.unwrap_or_default(),
            extruder: extruder?,
            output: output?,
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
        let bevel_speed = section.defaulted("bevel_speed", speed);
        let hole_time = section.defaulted("hole_time", time);
        let panel_time = section.defaulted("panel_time", time);
        let clamp_time = section.defaulted("clamp_time", time);
        let run_time = section.defaulted("run_time", time);
        let turn_time = section.defaulted("turn_time", time);
        let opening_time = section.defaulted("opening_time", time);
        let stage_time = section.defaulted("stage_time", time);
        let fill_rate = section.defaulted("fill_rate", |field| field.quantity_above_zero());
        let of_process = word_of(&PROCESSES, process);
        let rod_factor = section.defaulted_for("rod_factor", of_process, read_rod_factor);
        Some(Self {
            weld_speed: weld_speed?,
            tack_speed: tack_speed?,
            scrape_speed: scrape_speed?,
            cut_speed: cut_speed?,
            bevel_speed: bevel_speed?,
            hole_time: hole_time?,
            panel_time: panel_time?,
            clamp_time: clamp_time?,
            run_time: run_time?,
            turn_time: turn_time?,
            opening_time: opening_time?,
            stage_time: stage_time?,
            fill_rate: fill_rate?,
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
