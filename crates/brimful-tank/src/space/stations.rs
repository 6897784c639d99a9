//! Sections at stations, joined corner to corner by straight lines.
//!
//! A side between two sections is ruled: straight along x, and where its four corners lie in no one
//! plane twisted. The area of a section between two stations is a quadratic of x, as its corners
//! move along straight lines, so Simpson's rule gives the volume exactly. Twisted sides are faced
//! from inside: by the flat that keeps most of those that leave all four corners outside, or by two
//! triangles that meet along the diagonal that lies further in.

use super::measured::Shell;
use crate::finding::{Finding, Grade, Quantity};
use crate::job::{Station, Twisted};
use crate::shape::{ShapeFault, simple};
use brimful_geom::boolean::{BooleanFault, clip, union};
use brimful_geom::frame::Plane;
use brimful_geom::polygon::Outline;
use brimful_geom::solid::{Face, Solid};
use brimful_geom::vector::{Point2, Point3, Vec3};
use brimful_units::Length;

/// A tape is read to a millimetre; a side twisted by less is flat, metres.
const TAPE: f64 = 1e-3;
/// Rounding of a corner on a plane, metres.
const ROUNDING: f64 = 1e-9;

/// A section in metres, counter-clockwise seen from the front.
struct Section {
    x: f64,
    outline: Outline,
}

/// The shell of sections.
pub(super) fn shell(stations: &[Station], twisted: Twisted) -> Result<Shell, ShapeFault> {
    let sections = stations
        .iter()
        .map(|station| {
            Ok(Section {
                x: station.at.m(),
                outline: simple(&station.outline)?.counter_clockwise(),
            })
        })
        .collect::<Result<Vec<Section>, ShapeFault>>()?;
    let place = stations.first().map(|station| station.outline.place.clone());
    let place = place.unwrap_or_default();
    let not_made = |fault: BooleanFault| {
        ShapeFault::new(
            &place,
            format!("The sections close no solid: {fault}."),
            "Give all sections the same corners in the same order.",
        )
    };
    let mut parts = Vec::new();
    let mut findings = Vec::new();
    for pair in sections.windows(2) {
        let (from, to) = (&pair[0], &pair[1]);
        let folded = two_triangles(from, to);
        let flat = match convex(from) && convex(to) {
            true => Some(flats(from, to).map_err(not_made)?),
            false => None,
        };
        findings.extend(twist(from, to, twisted, flat.as_ref(), &folded));
        parts.push(match (twisted, flat) {
            (Twisted::Flat, Some(flat)) => flat,
            _ => folded,
        });
    }
    let solid = match parts.len() {
        1 => parts.remove(0),
        _ => union(&parts.iter().collect::<Vec<_>>()).map_err(not_made)?,
    };
    Ok(Shell { solid, findings })
}

fn point(x: f64, p: Point2) -> Point3 {
    Point3::new(x, p.x, p.y)
}

fn convex(section: &Section) -> bool {
    let points = &section.outline.0;
    let n = points.len();
    (0..n).all(|i| {
        let (a, b, c) = (points[i], points[(i + 1) % n], points[(i + 2) % n]);
        (b - a).cross(c - b) > -ROUNDING
    })
}

/// The four corners of each side, counter-clockwise seen from outside.
fn sides(from: &Section, to: &Section) -> Vec<[Point3; 4]> {
    let n = from.outline.0.len();
    (0..n)
        .map(|i| {
            let next = (i + 1) % n;
            [
                point(from.x, from.outline.0[i]),
                point(from.x, from.outline.0[next]),
                point(to.x, to.outline.0[next]),
                point(to.x, to.outline.0[i]),
            ]
        })
        .collect()
}

/// How far the fourth corner of a side lies off the plane of the other three; of the four ways to
/// leave one out the largest.
fn fourth_off(side: &[Point3; 4]) -> f64 {
    (0..4)
        .filter_map(|out| {
            let [a, b, c] = [1, 2, 3].map(|step| side[(out + step) % 4]);
            let plane = Plane::through(a, (b - a).cross(c - a))?;
            Some(plane.distance(side[out]).abs())
        })
        .fold(0.0, f64::max)
}

/// The planes through three corners of a side that leave the fourth outside.
fn flats_of(side: &[Point3; 4]) -> Vec<Plane> {
    (0..4)
        .filter_map(|out| {
            let [a, b, c] = [1, 2, 3].map(|step| side[(out + step) % 4]);
            let plane = Plane::through(a, (b - a).cross(c - a))?;
            (plane.distance(side[out]) > -ROUNDING).then_some(plane)
        })
        .collect()
}

/// The convex body with one flat a side: of each side the plane that keeps most.
fn flats(from: &Section, to: &Section) -> Result<Solid, BooleanFault> {
    let (low, high) = bounds(from, to);
    let mut solid = Solid::cuboid(low, high);
    for side in sides(from, to) {
        let mut best: Option<(f64, Solid)> = None;
        for plane in flats_of(&side) {
            let kept = clip(&solid, &plane)?;
            let volume = kept.moments().volume;
            if best.as_ref().is_none_or(|(most, _)| volume > *most + ROUNDING) {
                best = Some((volume, kept));
            }
        }
        if let Some((_, kept)) = best {
            solid = kept;
        }
    }
    Ok(solid)
}

fn bounds(from: &Section, to: &Section) -> (Point3, Point3) {
    let ((al, ah), (bl, bh)) = (from.outline.bounds(), to.outline.bounds());
    // Past the corners, so that the sides and not the block cut.
    let past = 0.1;
    (
        Point3::new(from.x, al.x.min(bl.x) - past, al.y.min(bl.y) - past),
        Point3::new(to.x, ah.x.max(bh.x) + past, ah.y.max(bh.y) + past),
    )
}

/// The body with two triangles to each twisted side.
fn two_triangles(from: &Section, to: &Section) -> Solid {
    let n = from.outline.0.len();
    let rear = from.outline.0.iter().map(|&p| point(from.x, p));
    let front = to.outline.0.iter().map(|&p| point(to.x, p));
    let vertices: Vec<Point3> = rear.chain(front).collect();
    let cap = |normal: Vec3, at: usize, ring: Vec<usize>| Face {
        plane: Plane {
            normal,
            offset: normal.dot(vertices[at].to_vec()),
        },
        loops: vec![ring],
    };
    let mut faces = vec![
        cap(-Vec3::X, 0, (0..n).rev().collect()),
        cap(Vec3::X, n, (n..2 * n).collect()),
    ];
    for i in 0..n {
        let next = (i + 1) % n;
        let ring = [i, next, n + next, n + i];
        let corners = ring.map(|v| vertices[v]);
        let loops: Vec<Vec<usize>> = if fourth_off(&corners) < ROUNDING {
            vec![ring.to_vec()]
        } else {
            let out = (corners[2] - corners[0]).cross(corners[3] - corners[1]);
            let depth = |a: usize, b: usize| out.dot(corners[a].midpoint(corners[b]).to_vec());
            let [a, b, c, d] = ring;
            match depth(0, 2) < depth(1, 3) {
                true => vec![vec![a, b, c], vec![a, c, d]],
                false => vec![vec![b, c, d], vec![b, d, a]],
            }
        };
        faces.extend(loops.into_iter().filter_map(|ring| {
            let [a, b, c] = [0, 1, 2].map(|place| vertices[ring[place]]);
            Some(Face {
                plane: Plane::through(a, (b - a).cross(c - a))?,
                loops: vec![ring],
            })
        }));
    }
    Solid { vertices, faces }
}

/// The exact volume of the ruled body, by Simpson's rule.
fn ruled_volume(from: &Section, to: &Section) -> f64 {
    let middle: Vec<Point2> = from
        .outline
        .0
        .iter()
        .zip(&to.outline.0)
        .map(|(&a, &b)| a.midpoint(b))
        .collect();
    let area = |outline: &Outline| outline.signed_area();
    (to.x - from.x) / 6.0 * (area(&from.outline) + 4.0 * area(&Outline(middle)) + area(&to.outline))
}

/// The twist of the sides between two sections, and what facing them loses.
fn twist(
    from: &Section,
    to: &Section,
    twisted: Twisted,
    flat: Option<&Solid>,
    folded: &Solid,
) -> Option<Finding> {
    let off: Vec<(usize, f64)> = sides(from, to)
        .iter()
        .map(fourth_off)
        .enumerate()
        .filter(|(_, off)| *off > TAPE)
        .collect();
    let most = off.iter().map(|(_, off)| *off).fold(0.0, f64::max);
    if off.is_empty() {
        return None;
    }
    let list: Vec<String> = off
        .iter()
        .map(|(side, off)| format!("{:.0} mm at the side from corner {}", off * 1e3, side + 1))
        .collect();
    let ruled = ruled_volume(from, to);
    let lost = |solid: &Solid| (ruled - solid.moments().volume) * 1e3;
    let done = match (twisted, flat) {
        (Twisted::Flat, Some(flat)) => format!(
            "Each is faced with one flat panel, which loses {:.1} L of the space; two triangles with a seam would lose {:.1} L (`twisted = \"two triangles\"`).",
            lost(flat),
            lost(folded)
        ),
        (Twisted::Flat, None) => format!(
            "The sections have inside corners, so each is faced with two triangles that meet along the inner diagonal, which loses {:.1} L.",
            lost(folded)
        ),
        (Twisted::TwoTriangles, _) => format!(
            "Each is faced with two triangles that meet along the inner diagonal, a seam more a side, which loses {:.1} L.",
            lost(folded)
        ),
    };
    Some(
        Finding::new(
            Grade::Note,
            "space",
            format!(
                "Sides between x = {:.0} and {:.0} mm are twisted: the fourth corner lies off the plane of the other three by {}. {done} Twisting the sheet cold instead loads its welds for good, and is not covered.",
                from.x * 1e3,
                to.x * 1e3,
                list.join(", ")
            ),
        )
        .figures(
            Quantity::Length(Length::from_m(most)),
            Quantity::Length(Length::from_m(TAPE)),
        )
        .source("the sections as measured, joined by straight lines; Simpson's rule, exact for ruled sides"),
    )
}
