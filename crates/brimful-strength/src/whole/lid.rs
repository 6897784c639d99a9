//! Where somebody may stand on the lid: in one place at a time, as far from what holds the lid up as it goes, beside a
//! hole, and on the narrowest sheet between two holes.

use super::midsurface::Midsurface;
use super::place::areas_of_nodes;
use super::tank::Tank;
use brimful_geom::mesh::{Flat, Mesh};
use brimful_geom::polygon::Outline;
use brimful_geom::vector::{Point2, Point3, Vec2};
use brimful_panels::panel::Role;
use brimful_units::Length;

/// Half the width of what stands there, m: a foot or a knee. EN 1991-1-1, 6.3.1.2 takes a square of
/// 50 mm for a load in one place (from memory); a cone of twice that reach weighs on about as much.
const REACH: f64 = 0.05;
/// Elements there are so many times the reach at a fineness of one: at six, that of the first mesh, a third of it.
const FINE: f64 = 2.0;
/// Places tried along each side of a lid.
const TRIED: usize = 60;

/// Places are held alike where that differs by less than this share of it: far above rounding, far below
/// what a cell of the grid changes.
const ALIKE: f64 = 1e-6;

/// How wide what stands there is.
pub const SPOT_WIDTH: Length = Length::from_m(2.0 * REACH);

/// A place on a lid.
#[derive(Clone, Copy, Debug)]
pub struct Spot {
    flat: usize,
    /// Where, on the middle plane.
    pub at: Point3,
}

impl Spot {
    /// Size of elements there on a mesh of this fineness, m.
    pub fn size(fineness: f64) -> f64 {
        REACH * FINE / fineness
    }

    /// The places of all lids where the sheet is asked most of, for its thickness: the one furthest from walls and
    /// inner panels, beside each hole the one that is, and the middle of the narrowest sheet between two holes; none where
    /// there is no lid.
    pub fn all(tank: &Tank<'_>, midsurface: &Midsurface) -> Vec<Self> {
        let lid = |flat: &usize| {
            let first = midsurface.panels[*flat].first();
            first.is_some_and(|&panel| tank.panels[panel].role == Role::Lid)
        };
        let lids: Vec<usize> = (0..midsurface.flats.len()).filter(lid).collect();
        let worst = |place: &dyn Fn(usize) -> Option<(Point2, f64)>| {
            let places = lids.iter().filter_map(|&flat| {
                let (at, asked) = place(flat)?;
                let at = midsurface.flats[flat].frame.world_from_flat(at);
                Some((asked / midsurface.thickness[flat], Self { flat, at }))
            });
            let most = places.max_by(|(a, _), (b, _)| a.total_cmp(b));
            most.map(|(_, spot)| spot)
        };
        let free = |flat: usize| furthest(&midsurface.flats[flat], &held(midsurface, flat), None);
        let beside = |flat: usize| -> Vec<Self> {
            let holes = midsurface.flats[flat].outlines.len() - 1;
            let places = (0..holes).filter_map(|hole| {
                furthest(&midsurface.flats[flat], &held(midsurface, flat), Some(hole))
            });
            let at = |place: Point2| midsurface.flats[flat].frame.world_from_flat(place);
            places
                .map(|(place, _)| Self {
                    flat,
                    at: at(place),
                })
                .collect()
        };
        let between = |flat: usize| {
            let (at, gap) = narrowest(&midsurface.flats[flat].outlines[1..])?;
            Some((at, 1.0 / gap))
        };
        let others = [worst(&free), worst(&between)].into_iter().flatten();
        others
            .chain(lids.iter().flat_map(|&flat| beside(flat)))
            .collect()
    }

    /// Where the sheet is bent most: at the place, and at the rim of each hole that it stands beside, where bending along
    /// the rim is greatest.
    pub fn bent_most(&self, midsurface: &Midsurface) -> Vec<Point3> {
        let flat = &midsurface.flats[self.flat];
        let own = flat.frame.flat_from_world(self.at);
        let rims = flat.outlines[1..].iter().filter_map(|hole| {
            let places = hole.sides().map(|(a, b)| nearest(own, a, b));
            places.min_by(|a, b| own.distance(*a).total_cmp(&own.distance(*b)))
        });
        let beside = rims.filter(|rim| own.distance(*rim) < 2.0 * REACH);
        let beside = beside.map(|rim| flat.frame.world_from_flat(rim));
        [self.at].into_iter().chain(beside).collect()
    }

    /// Shares of the load of the nodes it stands on.
    pub fn shares(&self, mesh: &Mesh) -> Vec<(usize, f64)> {
        let nodes = areas_of_nodes(mesh, self.flat, |_| true);
        let away = |node: usize| mesh.nodes[node].distance(self.at);
        let mut shares: Vec<(usize, f64)> = nodes
            .iter()
            .map(|&(node, area)| (node, area * (1.0 - away(node) / REACH)))
            .filter(|(_, share)| *share > 0.0)
            .collect();
        if shares.is_empty() {
            let nearest = nodes
                .into_iter()
                .map(|(node, _)| node)
                .min_by(|&a, &b| away(a).total_cmp(&away(b)));
            shares.extend(nearest.map(|node| (node, 1.0)));
        }
        let sum: f64 = shares.iter().map(|(_, share)| share).sum();
        shares.iter_mut().for_each(|(_, share)| *share /= sum);
        shares
    }
}

/// Lines of a flat that hold it up: its outer edge and where inner panels reach it.
fn held(midsurface: &Midsurface, flat: usize) -> Vec<(Point2, Point2)> {
    let own = &midsurface.flats[flat];
    let mut lines: Vec<(Point2, Point2)> = own.outlines[0].sides().collect();
    for (number, other) in midsurface.flats.iter().enumerate() {
        if number == flat {
            continue;
        }
        let touching = |p: Point3| own.frame.plane().distance(p).abs() < midsurface.thickness[flat];
        for (a, b) in other.outlines[0].sides() {
            let [a, b] = [a, b].map(|p| other.frame.world_from_flat(p));
            if touching(a) && touching(b) {
                lines.push((own.frame.flat_from_world(a), own.frame.flat_from_world(b)));
            }
        }
    }
    lines
}

/// The middle of the narrowest sheet between two holes, and how wide that is, m; none of fewer than two.
fn narrowest(holes: &[Outline]) -> Option<(Point2, f64)> {
    let pairs = holes.iter().enumerate().flat_map(|(number, one)| {
        let others = holes[number + 1..].iter();
        others.flat_map(move |other| [(one, other), (other, one)])
    });
    // Two outlines are nearest at a corner of one of them.
    let gaps: Vec<(Point2, f64)> = pairs
        .flat_map(|(one, other)| {
            one.0.iter().flat_map(move |&corner| {
                let sides = other.sides();
                sides
                    .map(move |(a, b)| nearest(corner, a, b))
                    .map(move |at| (corner.midpoint(at), corner.distance(at)))
            })
        })
        .collect();
    let gap = gaps
        .iter()
        .map(|(_, gap)| *gap)
        .fold(f64::INFINITY, f64::min);
    // Along two straight rims all are alike, and the middle of them is asked most of.
    let alike: Vec<Point2> = gaps
        .into_iter()
        .filter(|(_, own)| *own <= gap * (1.0 + ALIKE))
        .map(|(at, _)| at)
        .collect();
    let first = *alike.first()?;
    let off = alike.iter().map(|&at| at - first);
    let mean = off.fold(Vec2::new(0.0, 0.0), |sum, way| sum + way) / alike.len() as f64;
    Some((first + mean, gap))
}

/// Of a grid of places on a flat, or of those within [`REACH`] of the hole `beside`, holes left out, the one furthest from
/// the lines. Of those that are so far
/// to within a cell of the grid (all along the middle of a long lid, and in bays alike) the one that all
/// lines together are furthest from, by the sum of their inverse distances, and then the one nearest to a
/// hole.
fn furthest(
    flat: &Flat,
    lines: &[(Point2, Point2)],
    beside: Option<usize>,
) -> Option<(Point2, f64)> {
    let (low, high) = flat.outlines[0].bounds();
    let holes = &flat.outlines[1..];
    let on = |p: Point2| flat.outlines[0].contains(p) && holes.iter().all(|hole| !hole.contains(p));
    let cell = (high - low) * (1.0 / TRIED as f64);
    let at = |i: usize, j: usize| {
        let share = |k: usize| k as f64 + 0.5;
        Point2::new(low.x + share(i) * cell.x, low.y + share(j) * cell.y)
    };
    let to_hole = |p: Point2| {
        let distances = holes.iter().map(|hole| hole.distance(p));
        distances.fold(f64::INFINITY, f64::min)
    };
    let distances = |p: Point2| lines.iter().map(move |&(a, b)| away(p, a, b));
    let places: Vec<(Point2, f64)> = (0..TRIED * TRIED)
        .map(|k| at(k % TRIED, k / TRIED))
        .filter(|&p| on(p) && beside.is_none_or(|hole| holes[hole].distance(p) <= REACH))
        .map(|p| (p, distances(p).fold(f64::INFINITY, f64::min)))
        .collect();
    let most = places.iter().map(|(_, away)| *away).fold(0.0, f64::max);
    let alike = places
        .into_iter()
        .filter(|(_, away)| *away >= most - cell.x.min(cell.y));
    let held = |p: Point2| distances(p).map(|away| 1.0 / away).sum::<f64>();
    alike.min_by(|&(p, _), &(q, _)| {
        let (a, b) = (held(p), held(q));
        match (a - b).abs() < ALIKE * a {
            true => to_hole(p).total_cmp(&to_hole(q)),
            false => a.total_cmp(&b),
        }
    })
}

fn away(p: Point2, a: Point2, b: Point2) -> f64 {
    p.distance(nearest(p, a, b))
}

/// The place between two others that is nearest to a place.
fn nearest(p: Point2, a: Point2, b: Point2) -> Point2 {
    let way = b - a;
    let share = ((p - a).dot(way) / way.dot(way).max(f64::MIN_POSITIVE)).clamp(0.0, 1.0);
    a + way * share
}
