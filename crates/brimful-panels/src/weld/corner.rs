//! Where three runs and more meet: in which order they pass, which goes through the corner and where the others are taken up.
//!
//! A speed nozzle does not get into a corner with its toe, and a start or a stop in a corner is where a tank leaks. So a
//! short run with the round nozzle goes through the corner first, from one seam into the next, and the third is laid
//! against it; the long runs are taken up on the short ones away from the corner, each further out than the one before.

use super::laying::by_round_nozzle;
use super::line::lines;
use super::order::{Step, Work};
use super::seam_weld::{SeamWeld, ShortRuns};
use super::side::WeldSide;
use crate::finding::kind::WeldKind;
use crate::finding::{Finding, Grade, Subject};
use crate::panel::Panel;
use crate::seam::{Joint, Seam};
use crate::table::fixture::{angles, lengths};
use crate::table::kit::length;
use brimful_geom::plate::PlateFace;
use brimful_geom::vector::{Point2, Point3};
use brimful_job::{Job, Nozzle, Process};
use brimful_units::{Angle, Length};
use std::collections::BTreeMap;

/// Ends of runs nearer than so many sheets meet: panels end a sheet short of each other.
const MEET: f64 = 2.0;
/// From this many runs on they cross.
const CROSS: usize = 4;

/// Where three runs and more of one side meet.
#[derive(Clone, Debug, PartialEq)]
pub struct Corner {
    /// Where it is.
    pub at: Point3,
    /// The side that its runs are laid from.
    pub side: WeldSide,
    /// Numbers of the panels that meet.
    pub panels: Vec<usize>,
    /// Its runs in the order in which they are laid.
    pub passes: Vec<Pass>,
    /// Whether two of its panels stand in each other's way outside.
    pub is_re_entrant: bool,
    /// Number of a panel with a stop hole that the run through the corner has to fill.
    pub stop_hole: Option<usize>,
}

/// One run at a corner.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pass {
    /// Number of the seam.
    pub seam: usize,
    /// How it passes.
    pub way: Way,
    /// How far from the corner its long run is taken up on the short one; none where there is but one: past the edge, or
    /// where the seam is so short that the short run is all of it.
    pub taken_up: Option<Length>,
}

/// How a run passes a corner.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Way {
    /// It is laid before the panel stands that closes the corner, past its edge, and trimmed flush.
    PastTheEdge,
    /// Through the corner, from one seam into the next, without a stop.
    Through,
    /// It is laid last, and ends on the run through the corner.
    Against,
}

impl Way {
    /// A word for it that is the same in every language.
    pub const fn key(self) -> &'static str {
        match self {
            Self::PastTheEdge => "past the edge",
            Self::Through => "through",
            Self::Against => "against",
        }
    }
}

impl Corner {
    /// Whether so many runs meet that they cross.
    pub fn is_crossing(&self) -> bool {
        self.passes.len() >= CROSS
    }
}

/// How a run is stopped and taken up again.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Restart {
    /// The slope that the end of the old run is cut to.
    pub wedge: [Angle; 2],
    /// How far the new run begins on the old one.
    pub overlap: [Length; 2],
    /// How far starts of neighbouring runs are apart.
    pub stagger: Length,
    /// No start or stop is nearer to a corner.
    pub from_corner: Length,
    /// Nor to one where a wall stands ahead: an extruder's shoe keeps it further away than a nozzle.
    pub from_wall: Length,
    /// What the short run through a corner is laid with.
    pub short_run: ShortRun,
}

/// What the short run through a corner is laid with.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ShortRun {
    /// With the round nozzle, rod in the other hand, where another tool lays the long runs.
    RoundNozzle,
    /// With the nozzle that lays all runs.
    SameNozzle,
    /// None: one hand cannot lay it. Long runs begin in the corner and stop away from it.
    None,
}

impl Restart {
    /// The rows of the table that it is from.
    pub fn rows(process: Process) -> [&'static str; 2] {
        match process {
            Process::HotGas => ["hot gas restart", "any restart"],
            Process::Extrusion => ["extrusion restart", "any restart"],
        }
    }

    /// As the shop welds.
    pub fn of(job: &Job) -> Self {
        let shop = &job.shop;
        let [own, any] = Self::rows(shop.process);
        let [least, _] = lengths(any, "from corner");
        let [stagger, _] = lengths(own, "stagger");
        Self {
            wedge: angles(own, "wedge"),
            overlap: lengths(own, "overlap"),
            stagger,
            from_corner: least,
            from_wall: match shop.process {
                Process::HotGas => least,
                Process::Extrusion => least.max(length("extruder", "end")),
            },
            short_run: match (shop.process, shop.nozzle, shop.hands) {
                (_, _, ..2) => ShortRun::None,
                (Process::HotGas, Nozzle::Round, _) => ShortRun::SameNozzle,
                (Process::HotGas, Nozzle::Speed, _) | (Process::Extrusion, _, _) => {
                    ShortRun::RoundNozzle
                }
            },
        }
    }
}

/// Every place where three runs of one side and more meet, inside first.
pub fn corners(
    panels: &[Panel],
    seams: &[Seam],
    welds: &[SeamWeld],
    steps: &[Step],
    restart: &Restart,
) -> Vec<Corner> {
    let sides = [WeldSide::Inside, WeldSide::Outside];
    let found = sides.into_iter().flat_map(|side| {
        let runs = runs(panels, seams, welds, side);
        let places = places(&runs);
        let corner = move |place: Place| {
            let mut own: Vec<(usize, usize)> = place
                .runs
                .iter()
                .map(|&run| (laid(steps, runs[run].seam, side), runs[run].seam))
                .collect();
            own.sort_unstable();
            corner(
                panels,
                seams,
                steps,
                Met {
                    at: place.at,
                    side,
                    runs: own,
                },
                restart,
            )
        };
        places
            .into_iter()
            .filter(|it| it.runs.len() > 2)
            .map(corner)
    });
    let mut found: Vec<Corner> = found.collect();
    leave_out_long_runs(&mut found, seams);
    found
}

/// Where the short runs from both ends of a seam take all of its length there is no long one to take up.
fn leave_out_long_runs(corners: &mut [Corner], seams: &[Seam]) {
    let is_short = |pass: &Pass| pass.way != Way::PastTheEdge;
    let mut taken: BTreeMap<(usize, WeldSide), Length> = BTreeMap::new();
    for corner in corners.iter() {
        for pass in corner.passes.iter().filter(|it| is_short(it)) {
            let own = pass.taken_up.unwrap_or(seams[pass.seam].length());
            *taken.entry((pass.seam, corner.side)).or_default() += own;
        }
    }
    for corner in corners.iter_mut() {
        for pass in corner.passes.iter_mut().filter(|it| is_short(it)) {
            let all = taken[&(pass.seam, corner.side)];
            pass.taken_up = pass.taken_up.filter(|_| all < seams[pass.seam].length());
        }
    }
}

/// Marks on the welds where short runs through these corners are laid with the round nozzle, where another tool lays the
/// long ones.
pub fn mark_short_runs(
    job: &Job,
    welds: &mut [SeamWeld],
    corners: &[Corner],
    seams: &[Seam],
    restart: &Restart,
) {
    if restart.short_run != ShortRun::RoundNozzle {
        return;
    }
    for corner in corners {
        let short = corner.passes.iter();
        let short = short.filter(|it| it.way != Way::PastTheEdge);
        let mut is_on_its_way = false;
        for pass in short {
            // Of the two that one run goes through it is begun in the first.
            let is_begun = !(pass.way == Way::Through && is_on_its_way);
            is_on_its_way |= pass.way == Way::Through;
            let of_pass = |weld: &&mut SeamWeld| {
                let is_by_another = weld.process == job.shop.process;
                weld.seam == pass.seam && weld.side == corner.side && is_by_another
            };
            let stretch = short_run(corner, pass, &seams[pass.seam]);
            for weld in welds.iter_mut().filter(of_pass) {
                let (runs, speed) = by_round_nozzle(job, &job.stock.rods[weld.rod], weld.area);
                let short = weld.short_runs.get_or_insert(ShortRuns {
                    stretches: Vec::new(),
                    runs,
                    speed,
                    begun: 0,
                });
                // One that is all of its seam is met at either end.
                if !short.stretches.contains(&stretch) {
                    short.stretches.push(stretch);
                    short.begun += usize::from(is_begun);
                }
            }
        }
    }
    for short in welds.iter_mut().filter_map(|it| it.short_runs.as_mut()) {
        short.stretches = joined(std::mem::take(&mut short.stretches));
    }
}

/// Stretches that overlap or touch as one, in their order along the seam.
fn joined(mut stretches: Vec<[Length; 2]>) -> Vec<[Length; 2]> {
    stretches.sort_by(|a, b| a[0].m().total_cmp(&b[0].m()));
    let mut all: Vec<[Length; 2]> = Vec::new();
    for [from, to] in stretches {
        match all.last_mut() {
            Some([_, end]) if from <= *end => *end = end.max(to),
            _ => all.push([from, to]),
        }
    }
    all
}

/// From where to where along its seam a short run lies; all along where no long one is taken up on it.
fn short_run(corner: &Corner, pass: &Pass, seam: &Seam) -> [Length; 2] {
    let [from, to] = seam.inner_line;
    let length = seam.length();
    let Some((far, way)) = pass.taken_up.zip((to - from).unit()) else {
        return [Length::ZERO, length];
    };
    let along = Length::from_m((corner.at - from).dot(way));
    let within = |place: Length| place.max(Length::ZERO).min(length);
    [within(along - far), within(along + far)]
}

/// Says where so many runs would meet that they cross.
pub fn finding(corners: &[Corner], seams: &[Seam]) -> Option<Finding> {
    let crossing: Vec<&Corner> = corners.iter().filter(|it| it.is_crossing()).collect();
    let most = crossing.iter().map(|it| it.passes.len()).max()?;
    let all = crossing.iter().flat_map(|it| &it.passes);
    let mut numbers: Vec<usize> = all.map(|pass| pass.seam).collect();
    numbers.sort_unstable();
    numbers.dedup();
    let marks = numbers.into_iter().map(|it| seams[it].mark.clone());
    let kind = WeldKind::RunsCross {
        places: crossing.len(),
        most,
    };
    Some(Finding::of(
        Grade::Mend,
        Subject::Seams(marks.collect()),
        kind,
    ))
}

/// A run as a line.
struct Run {
    seam: usize,
    ends: [Point3; 2],
    /// Within this distance of an end another run meets it, m.
    near: f64,
}

fn runs(panels: &[Panel], seams: &[Seam], welds: &[SeamWeld], side: WeldSide) -> Vec<Run> {
    let own = welds.iter().filter(|weld| weld.side == side);
    let mut numbers: Vec<usize> = own.map(|weld| weld.seam).collect();
    numbers.dedup();
    // Tongues end away from corners.
    let numbers = numbers.into_iter();
    let numbers = numbers.filter(|&seam| seams[seam].joint != Joint::SlotThrough);
    let each = numbers.flat_map(|number| {
        let seam = &seams[number];
        let thickest = seam.panels.map(|it| panels[it].thickness.m());
        lines(panels, seam, side).into_iter().map(move |line| Run {
            seam: number,
            ends: [line.from, line.to],
            near: MEET * thickest[0].max(thickest[1]),
        })
    });
    each.collect()
}

/// A place where runs meet, with their numbers.
struct Place {
    at: Point3,
    runs: Vec<usize>,
}

/// The places where ends of runs meet each other, or meet a run that goes on. The two runs of one seam, on either side of
/// the panel that stands there, never meet.
fn places(runs: &[Run]) -> Vec<Place> {
    let mut places: Vec<Place> = Vec::new();
    for (number, run) in runs.iter().enumerate() {
        for end in run.ends {
            let is_open = |place: &&mut Place| {
                let is_near = place.at.distance(end) <= run.near;
                is_near && place.runs.iter().all(|&it| runs[it].seam != run.seam)
            };
            let open = places.iter_mut().filter(is_open);
            let nearest = open.min_by(|a, b| a.at.distance(end).total_cmp(&b.at.distance(end)));
            match nearest {
                Some(place) => place.runs.push(number),
                None => places.push(Place {
                    at: end,
                    runs: vec![number],
                }),
            }
        }
    }
    for place in &mut places {
        for (number, run) in runs.iter().enumerate() {
            let is_met = place.runs.iter().any(|&it| runs[it].seam == run.seam);
            let [from, to] = run.ends;
            if !is_met && place.at.distance_to_segment(from, to) <= run.near {
                place.runs.push(number);
            }
        }
    }
    places
}

/// The step in which a seam is welded from a side.
fn laid(steps: &[Step], seam: usize, side: WeldSide) -> usize {
    let mut steps = steps.iter();
    let step = steps.position(|it| it.work.side() == Some(side) && it.seams.contains(&seam));
    step.unwrap_or(usize::MAX)
}

/// The panels that stand in a step.
fn standing(steps: &[Step], step: usize) -> impl Iterator<Item = usize> {
    let set = steps.iter().take(step).filter(|it| it.work == Work::Set);
    set.flat_map(|it| it.panels.iter().copied())
}

/// Runs that meet, each by its step and its seam, in the order in which they are laid.
struct Met {
    at: Point3,
    side: WeldSide,
    runs: Vec<(usize, usize)>,
}

fn corner(
    panels: &[Panel],
    seams: &[Seam],
    steps: &[Step],
    Met { at, side, runs }: Met,
    restart: &Restart,
) -> Corner {
    let mut met: Vec<usize> = runs.iter().flat_map(|it| seams[it.1].panels).collect();
    met.sort_unstable();
    met.dedup();
    // What is laid before all panels stand has no corner yet to go through.
    let is_closed = |step: usize| {
        let mut met = met.iter();
        met.all(|panel| standing(steps, step).any(|it| it == *panel))
    };
    let before = runs.iter().take_while(|it| !is_closed(it.0)).count();
    let left = runs.len() - before;
    let way = |place: usize| match place {
        place if place < before => Way::PastTheEdge,
        place if left > 1 && place < before + 2 => Way::Through,
        _ => Way::Against,
    };
    let is_re_entrant = runs.iter().any(|it| seams[it.1].is_re_entrant());
    let nearest = match side == WeldSide::Inside || is_re_entrant {
        true => restart.from_wall,
        false => restart.from_corner,
    };
    let pass = |(place, &(_, seam)): (usize, &(usize, usize))| {
        let further = place.checked_sub(before);
        let far = further.map(|it| nearest + restart.stagger * it as f64);
        Pass {
            seam,
            way: way(place),
            // Both ends of a seam are taken up, with its long run between.
            taken_up: far.filter(|far| *far * 2.0 < seams[seam].length()),
        }
    };
    Corner {
        at,
        side,
        passes: runs.iter().enumerate().map(pass).collect(),
        is_re_entrant,
        stop_hole: met
            .iter()
            .copied()
            .find(|&it| has_stop_hole(&panels[it], at)),
        panels: met,
    }
}

/// Whether a panel has a stop hole at a corner.
fn has_stop_hole(panel: &Panel, at: Point3) -> bool {
    let near = MEET * panel.thickness.m();
    let place = |centre: Point2, face: PlateFace| match face {
        PlateFace::Outside => panel.finished.frame.world_from_flat(centre),
        PlateFace::Inside => panel.on_inside(centre),
    };
    panel.reliefs.iter().any(|relief| {
        let faces = [PlateFace::Outside, PlateFace::Inside].into_iter();
        let nearest = faces.map(|face| place(relief.centre, face).distance(at));
        nearest.fold(f64::INFINITY, f64::min) <= near + relief.radius.m()
    })
}

#[cfg(test)]
mod tests;
