//! What keeps gun and hand from every place of every run, whatever stands.

use super::kit::Kit;
use super::line::{Line, lines};
use super::seam_weld::SeamWeld;
use super::side::WeldSide;
use crate::panel::Panel;
use crate::seam::Seam;
use brimful_geom::vector::{Point3, Vec3};
use brimful_job::Job;
use brimful_reach::{Blocks, Obstacle, Place, Plates, Scene};
use brimful_units::Length;
use rayon::prelude::*;

/// Places of a run are no further apart than this: less than a hand, which is what gets in anything's way.
const APART: Length = Length::from_mm(50.0);
/// The first places are this far from the end of a run. At the first the run beside it begins: a round nozzle of 8 mm on
/// its wall, with its clearance.
const FROM_END: [Length; 2] = [Length::from_mm(10.0), Length::from_mm(25.0)];

/// The end of a run, where it is run on from the run that it meets: a nozzle's own width and its rod.
const END: Length = Length::from_mm(30.0);
/// A panel that crosses a run is near no more of it than this: both its sides, and the places about them.
const MOST_CROSSED: Length = Length::from_mm(150.0);

/// A run: a line on one side of a seam that is welded.
#[derive(Clone, Debug, PartialEq)]
pub struct Run {
    /// Number of the seam.
    pub seam: usize,
    /// The side it is laid from.
    pub side: WeldSide,
    /// Numbers of its two panels.
    pub panels: [usize; 2],
    /// Where it lies.
    pub(super) line: Line,
    /// Places along it.
    pub places: Vec<RunPlace>,
}

/// A place on a run, which stands for a stretch of it.
#[derive(Clone, Debug, PartialEq)]
pub struct RunPlace {
    /// How far it is from where the seam begins.
    pub along: Length,
    /// The stretch that it stands for.
    pub stretch: Length,
    /// What keeps the shop's own gun and nozzle away.
    pub own: Blocks,
    /// What keeps those and the round nozzle away.
    pub any: Blocks,
    /// What hides it from the eye.
    pub hidden_by: Blocks,
    /// Whether it is at an end of the run, or where another panel crosses it: the run is run on there from what it meets,
    /// and an order is not chosen by it.
    pub is_end: bool,
    /// Whether a shop with an extruder lays it with that: hot gas is for what is nearer to a cross wall.
    pub is_for_extruder: bool,
}

impl RunPlace {
    /// Whether it is reached and seen while these panels stand: nobody welds blind.
    fn can_be_laid(&self, standing: Plates) -> bool {
        self.any.is_reached(standing) && self.hidden_by.is_reached(standing)
    }
}

impl Run {
    /// Along it, of length one.
    pub(super) fn along(&self) -> Option<Vec3> {
        (self.line.to - self.line.from).unit()
    }

    /// Where a place of it is.
    pub(super) fn at(&self, place: &RunPlace) -> Point3 {
        let way = self.along().unwrap_or_default();
        self.line.from + way * place.along.m()
    }

    /// The length of it that is not reached while these panels stand, its ends apart.
    pub fn unreached(&self, standing: Plates) -> Length {
        self.length_where(|place| !place.is_end && !place.any.is_reached(standing))
    }

    /// The stretches of it that are not reached and seen while these panels stand, its ends apart, from where to where along
    /// the seam.
    pub fn out_of_reach(&self, standing: Plates) -> Vec<[Length; 2]> {
        let mut stretches: Vec<[Length; 2]> = Vec::new();
        let mut from = Length::ZERO;
        let mut was_out = false;
        for place in &self.places {
            let to = from + place.stretch;
            let is_out = !place.is_end && !place.can_be_laid(standing);
            match stretches.last_mut().filter(|_| was_out) {
                Some(last) if is_out => last[1] = to,
                _ if is_out => stretches.push([from, to]),
                _ => {}
            }
            (from, was_out) = (to, is_out);
        }
        stretches
    }

    /// Whether any of it is reached and seen while these panels stand, its ends apart.
    pub fn is_reached_in_part(&self, standing: Plates) -> bool {
        let mut places = self.places.iter().filter(|place| !place.is_end);
        places.any(|place| place.can_be_laid(standing))
    }

    /// Whether a stretch that an extruder would lay is laid by hot gas while these panels stand.
    pub fn is_by_hot_gas(&self, standing: Plates) -> bool {
        let mut places = self.places.iter().filter(|place| place.is_for_extruder);
        places.any(|place| place.any.is_reached(standing) && !place.own.is_reached(standing))
    }

    /// The length of it that is reached or seen no more once these panels stand.
    pub fn lost(&self, standing: Plates, with: Plates) -> Length {
        let is_lost = |blocks: &Blocks| blocks.is_reached(standing) && !blocks.is_reached(with);
        self.length_where(|place| {
            let of_extruder = place.is_for_extruder && is_lost(&place.own);
            let of_any = is_lost(&place.any) || is_lost(&place.hidden_by);
            of_extruder || (!place.is_end && of_any)
        })
    }

    /// The length of the stretches of those places.
    pub fn length_where(&self, is_it: impl Fn(&RunPlace) -> bool) -> Length {
        let places = self.places.iter().filter(|place| is_it(place));
        places.map(|place| place.stretch).sum()
    }
}

/// All runs of a tank; none where it has more panels than are looked at.
pub fn runs(job: &Job, panels: &[Panel], seams: &[Seam], welds: &[SeamWeld]) -> Option<Vec<Run>> {
    let obstacles = obstacles(panels)?;
    let kit = Kit::of(job);
    let scene = scene(&obstacles, &kit);
    let mut sides: Vec<(usize, WeldSide)> =
        welds.iter().map(|weld| (weld.seam, weld.side)).collect();
    sides.dedup();
    let each = sides.into_iter().flat_map(|(number, side)| {
        let of_side = lines(panels, &seams[number], side);
        of_side.into_iter().map(move |line| (number, side, line))
    });
    let each: Vec<_> = each.collect();
    let run = |&(seam, side, line): &(usize, WeldSide, Line)| {
        let places = places(&obstacles, &line, seams[seam].panels);
        let places = places
            .into_iter()
            .map(|place| place.looked_at(&scene, &kit));
        Run {
            seam,
            side,
            panels: seams[seam].panels,
            line,
            places: places.collect(),
        }
    };
    Some(each.par_iter().map(run).collect())
}

/// The panels as what may be in the way; none where there are more than are looked at.
pub(super) fn obstacles(panels: &[Panel]) -> Option<Vec<Obstacle>> {
    let are_few = panels.len() <= Plates::MOST;
    are_few.then(|| panels.iter().map(|it| Obstacle::of(&it.finished)).collect())
}

/// All of them standing.
pub(super) fn scene<'a>(obstacles: &'a [Obstacle], kit: &Kit) -> Scene<'a> {
    Scene::new(obstacles, kit.passage.m(), kit.clearance.m())
}

/// A place on a line before its reach is looked at.
pub(super) struct PlaceOnLine {
    pub place: Place,
    /// As of [`RunPlace::is_end`].
    pub is_end: bool,
    along: f64,
    stretch: f64,
    /// How far it is from the nearer end, m.
    from_end: f64,
    /// How long the run is, m.
    run: f64,
}

impl PlaceOnLine {
    fn looked_at(&self, scene: &Scene<'_>, kit: &Kit) -> RunPlace {
        let blocks = |tool| scene.blocks(&self.place, tool, &kit.arm);
        let own = kit.own.as_ref().map_or_else(Blocks::default, blocks);
        let by_hand = kit.by_hand.as_ref();
        let any = match by_hand.filter(|_| !own.is_always_reached()) {
            Some(tool) => own.clone().or(&blocks(tool)),
            None => own.clone(),
        };
        RunPlace {
            along: Length::from_m(self.along),
            stretch: Length::from_m(self.stretch),
            own,
            any,
            hidden_by: scene.hidden_by(&self.place, &kit.sight),
            is_end: self.is_end,
            // Of a run that is too short for an extruder all of it is asked for.
            is_for_extruder: kit
                .extruded_from
                .is_some_and(|from| self.from_end >= from.m() || self.run < 2.0 * from.m()),
        }
    }
}

/// The places of a line.
pub(super) fn places(obstacles: &[Obstacle], line: &Line, panels: [usize; 2]) -> Vec<PlaceOnLine> {
    let Some(along) = (line.to - line.from).unit() else {
        return Vec::new();
    };
    let length = line.from.distance(line.to);
    let own: Plates = panels.into_iter().collect();
    let stretches = stretches(length);
    let is_end = ends(obstacles, line, along, &stretches, panels);
    let place = |(&(far, stretch), is_end): (&(f64, f64), bool)| PlaceOnLine {
        place: Place {
            at: line.from + along * far,
            along,
            out: line.out,
            own,
        },
        is_end,
        along: far,
        stretch,
        from_end: far.min(length - far),
        run: length,
    };
    stretches.iter().zip(is_end).map(place).collect()
}

/// Which of the places of a line are at its ends, or where another panel crosses it: of a run that has more than those. A
/// panel that stands near so much of it runs along it.
fn ends(
    obstacles: &[Obstacle],
    line: &Line,
    along: Vec3,
    stretches: &[(f64, f64)],
    own: [usize; 2],
) -> Vec<bool> {
    let (end, length) = (END.m(), line.from.distance(line.to));
    let sum = |are: &[bool]| -> f64 {
        let them = are.iter().zip(stretches).filter(|(is_it, _)| **is_it);
        them.map(|(_, (_, stretch))| stretch).sum()
    };
    let by_length = stretches
        .iter()
        .map(|(far, _)| far.min(length - far) <= end);
    let mut are_ends: Vec<bool> = by_length.collect();
    for (number, obstacle) in obstacles.iter().enumerate() {
        if own.contains(&number) {
            continue;
        }
        let near = stretches.iter().map(|(far, _)| {
            let at = line.from + along * *far;
            obstacle.distance(at, at) <= end
        });
        let near: Vec<bool> = near.collect();
        if sum(&near) <= MOST_CROSSED.m() {
            are_ends
                .iter_mut()
                .zip(near)
                .for_each(|(is_it, near)| *is_it |= near);
        }
    }
    match sum(&are_ends) <= length / 2.0 {
        true => are_ends,
        false => vec![false; stretches.len()],
    }
}

/// Places along a length, m, each with the stretch that it stands for: halfway to its neighbours.
fn stretches(length: f64) -> Vec<(f64, f64)> {
    let [first, second] = FROM_END.map(Length::m);
    let mut places = match length {
        length if length <= 2.0 * first => vec![length / 2.0],
        length if length <= 4.0 * second => vec![first, length / 2.0, length - first],
        length => {
            let gaps = ((length - 2.0 * second) / APART.m()).ceil();
            let between = 0..=gaps as usize;
            let between = between.map(|i| second + (length - 2.0 * second) * i as f64 / gaps);
            let ends = [first, length - first].into_iter();
            ends.chain(between).collect()
        }
    };
    places.sort_by(f64::total_cmp);
    let halfway = |i: usize| (places[i] + places[i + 1]) / 2.0;
    let from = |i: usize| if i == 0 { 0.0 } else { halfway(i - 1) };
    let to = |i: usize| {
        if i + 1 == places.len() {
            length
        } else {
            halfway(i)
        }
    };
    let each = (0..places.len()).map(|i| (places[i], to(i) - from(i)));
    each.collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn stretches_make_up_their_run() {
        for length in [0.005, 0.02, 0.06, 0.1, 0.11, 0.3, 2.0] {
            let places = stretches(length);
            let sum: f64 = places.iter().map(|(_, stretch)| stretch).sum();
            // Rounding of a few dozen sums.
            assert!((sum - length).abs() < 1e-12, "{length}");
            let apart = places.windows(2).map(|pair| pair[1].0 - pair[0].0);
            let most = apart.fold(0.0, f64::max);
            assert!(most <= APART.m() + 1e-12, "{length}: {most}");
            assert!(places.iter().all(|(far, _)| *far > 0.0 && *far < length));
        }
    }
}
