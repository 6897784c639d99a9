//! Hatches in a lid, so that an arm gets to the insides of its seams: new ones, and wider or elsewhere than those there are.

use super::change::Change;
use super::trial::Trial;
use brimful_geom::plate::PlateFace;
use brimful_geom::vector::{Point2, Point3, Vec2};
use brimful_job::{Faces, GoesOn, Job, Opening, OpeningSize, Place, Service};
use brimful_panels::finding::kind::What;
use brimful_panels::panel::{Panel, Role};
use brimful_units::Length;

/// How wide hatches are made, the widest that helps first: from head and shoulders, past which one sees what one welds, to
/// an arm that still has some play, common practice.
const WIDTHS: [Length; 4] = [
    Length::from_mm(520.0),
    Length::from_mm(400.0),
    Length::from_mm(300.0),
    Length::from_mm(200.0),
];
/// An arm in a sleeve with the head of a gun in the hand gets over a baffle that ends so far below the lid: common practice.
const OVER_A_BAFFLE: Length = Length::from_mm(150.0);
/// Sheet left round a hatch, in thicknesses of the lid: a weld leg, and as much again for its ring.
const ROUND_IT: f64 = 2.0;
/// Hatches in a bay at most.
const MOST: usize = 3;
/// Places tried each way for one that is clear of other fittings.
const TRIED: usize = 9;

/// A stretch of the lid between walls and inner panels, in the lid's axes.
#[derive(Clone, Copy)]
struct Bay {
    low: Point2,
    high: Point2,
}

/// The fewest hatches in each bay from which most of what is out of reach is reached, the widest first, since the lid bears
/// narrow ones best; none where no hatch helps.
pub fn hatches(job: &Job, now: &Trial) -> Vec<Change> {
    let mut lids = now.panels.iter().filter(|it| it.role == Role::Lid);
    let (Some(lid), None) = (lids.next(), lids.next()) else {
        return Vec::new();
    };
    let places = now.out_of_reach();
    let flat = |place| lid.finished.frame.flat_from_world(place);
    let bays = bays(&now.panels, lid);
    let needs = |bay: &Bay| places.iter().any(|place| bay.contains(flat(*place)));
    let bays: Vec<Bay> = bays.into_iter().filter(needs).collect();
    let (mut least, mut best) = (places.len(), Vec::new());
    for count in 1..=MOST {
        let reached: Vec<(usize, Change)> = WIDTHS
            .into_iter()
            .filter_map(|width| with_hatches(job, lid, &bays, count, job.about.round(width)))
            .filter_map(|change| {
                let trial = Trial::of(&change.job, now.site.as_ref()).ok()?;
                Some((trial.out_of_reach().len(), change))
            })
            .collect();
        let left = reached.iter().map(|(left, _)| *left).min();
        if let Some(left) = left.filter(|left| *left < least) {
            let most_reached = reached.into_iter().filter(|(own, _)| *own == left);
            (least, best) = (left, most_reached.map(|(_, change)| change).collect());
        }
        if least == 0 {
            break;
        }
    }
    best
}

impl Bay {
    fn contains(&self, place: Point2) -> bool {
        (self.low.x..=self.high.x).contains(&place.x)
            && (self.low.y..=self.high.y).contains(&place.y)
    }

    /// Cut into so many along its longer side.
    fn parted(self, count: usize) -> impl Iterator<Item = Self> {
        let size = self.high - self.low;
        let step = match size.x >= size.y {
            true => Vec2::new(size.x / count as f64, 0.0),
            false => Vec2::new(0.0, size.y / count as f64),
        };
        let rest = size - step * count as f64;
        (0..count).map(move |number| {
            let low = self.low + step * number as f64;
            let high = low + step + rest;
            Self { low, high }
        })
    }

    /// Of the places that keep this far from its sides the one nearest to its middle that is clear, if any is.
    fn place(self, margin: f64, is_clear: impl Fn(Point2) -> bool) -> Option<Point2> {
        let off = Vec2::new(margin, margin);
        let (low, room) = (self.low + off, self.high - self.low - off * 2.0);
        if room.x < 0.0 || room.y < 0.0 {
            return None;
        }
        let share = |i: usize| i as f64 / (TRIED - 1) as f64;
        let at = |i: usize, j: usize| low + Vec2::new(share(i) * room.x, share(j) * room.y);
        let middle = self.low.midpoint(self.high);
        let places = (0..TRIED * TRIED).map(|k| at(k % TRIED, k / TRIED));
        let clear = places.filter(|&place| is_clear(place));
        clear.min_by(|a, b| a.distance(middle).total_cmp(&b.distance(middle)))
    }
}

/// What walls, dividers and those baffles that no arm gets over make of a lid, by the lines across it.
fn bays(panels: &[Panel], lid: &Panel) -> Vec<Bay> {
    let (low, high) = lid.finished.bounds();
    let (mut xs, mut ys) = (vec![low.x, high.x], vec![low.y, high.y]);
    let standing = panels
        .iter()
        .filter(|it| matches!(it.role, Role::Divider | Role::Baffle));
    for panel in standing {
        let outline = &panel.finished.outlines(PlateFace::Outside)[0];
        let place = |&corner| {
            let corner = panel.finished.frame.world_from_flat(corner);
            lid.finished.frame.frame_from_world(corner)
        };
        let corners: Vec<Point3> = outline.0.iter().map(place).collect();
        let span = |of: fn(&Point3) -> f64| {
            let values = corners.iter().map(of);
            values.fold([f64::MAX, f64::MIN], |[low, high], it| {
                [low.min(it), high.max(it)]
            })
        };
        let ([x, to_x], [y, to_y], [_, top]) = (span(|p| p.x), span(|p| p.y), span(|p| p.z));
        // The lid's frame has its outside at zero.
        if -top - lid.thickness.m() > OVER_A_BAFFLE.m() {
            continue;
        }
        match to_x - x < to_y - y {
            true => xs.push((x + to_x) / 2.0),
            false => ys.push((y + to_y) / 2.0),
        }
    }
    xs.sort_by(f64::total_cmp);
    ys.sort_by(f64::total_cmp);
    let rows = ys.windows(2);
    rows.flat_map(|y| {
        xs.windows(2).map(|x| Bay {
            low: Point2::new(x[0], y[0]),
            high: Point2::new(x[1], y[1]),
        })
    })
    .collect()
}

/// The job with so many hatches of a width in each of the bays that has room for them, in place of those there.
fn with_hatches(
    job: &Job,
    lid: &Panel,
    bays: &[Bay],
    count: usize,
    diameter: Length,
) -> Option<Change> {
    let margin = ROUND_IT * lid.thickness.m();
    let (corner, _) = lid.finished.bounds();
    let panel = lid.name.to_string();
    let middle = |opening: &Opening| {
        let [x, y] = opening.at.map(Length::m);
        Point2::new(corner.x + x, corner.y + y)
    };
    let is_old = |it: &Opening| {
        let is_here = it.service == Service::Hatch && it.panel == panel;
        is_here && bays.iter().any(|bay| bay.contains(middle(it)))
    };
    let is_clear = |place: Point2| {
        let others = job
            .openings
            .iter()
            .filter(|it| it.panel == panel && !is_old(it));
        let needs = |other: &Opening| (other.size.largest() + diameter).m() / 2.0 + margin;
        let mut apart = others.map(|it| middle(it).distance(place) >= needs(it));
        apart.all(|it| it)
    };
    let in_bay = |bay: &Bay| -> Option<Vec<Point2>> {
        let parts = bay.parted(count);
        let places = parts.map(|part| part.place(margin + diameter.m() / 2.0, is_clear));
        places.collect()
    };
    let (with_room, places): (Vec<Bay>, Vec<Vec<Point2>>) = bays
        .iter()
        .filter_map(|bay| Some((*bay, in_bay(bay)?)))
        .unzip();
    let goes = |it: &Opening| is_old(it) && with_room.iter().any(|bay| bay.contains(middle(it)));
    let (old, kept): (Vec<Opening>, Vec<Opening>) = job.openings.iter().cloned().partition(goes);
    let round = |metres: f64| job.about.round(Length::from_m(metres));
    let at: Vec<[Length; 2]> = places
        .concat()
        .into_iter()
        .map(|place| [round(place.x - corner.x), round(place.y - corner.y)])
        .collect();
    if at.is_empty() {
        return None;
    }
    let instead: Vec<String> = old.iter().map(|it| it.name.clone()).collect();
    let is_free = |name: &String| !kept.iter().any(|it| it.name == *name);
    let new_names = (1..).map(|number| format!("hatch {number}"));
    let new_names = new_names.filter(|name| is_free(name) && !instead.contains(name));
    let names = instead.iter().cloned().chain(new_names);
    let like = old.first();
    let new: Vec<Opening> = at
        .iter()
        .zip(names)
        .map(|(&at, name)| Opening {
            name,
            service: Service::Hatch,
            panel: panel.clone(),
            at,
            size: OpeningSize::Round { diameter },
            flange: None,
            stands_out: like.and_then(|it| it.stands_out),
            cover: like.and_then(|it| it.cover),
            weighs: like.and_then(|it| it.weighs),
            material: None,
            goes_on: like.map_or(GoesOn::Before, |it| it.goes_on),
            faces: like.map_or(Faces::Space, |it| it.faces),
            place: Place::default(),
        })
        .collect();
    let job = Job {
        openings: [kept, new].concat(),
        ..job.clone()
    };
    let what = What::Hatches {
        panel,
        diameter,
        at,
        instead,
    };
    Some(Change { what, job })
}
