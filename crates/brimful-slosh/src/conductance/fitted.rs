//! The conductances of a grid, fitted near the rims of plates.

use super::quadrature::{integral, integral_from_edge};
use super::rim::Rim;
use crate::cavity::{Cavity, Hole};
use crate::grid::{Grid, GridFault, Sheet};
use brimful_geom::polygon::Outline;
use brimful_geom::vector::Point2;

/// How many spacings from a rim the middles of faces lie that are fitted to it: found by trial on baffled sections. With
/// less the order is not restored, with more a second rim or a wall comes within reach sooner.
const REACH: f64 = 1.6;
/// Off the plate's own plane what is fitted stays within this of the plain conductance: where flux and difference both pass
/// through zero their ratio means nothing.
const BOUNDS: [f64; 2] = [0.3, 4.0];
/// A face is left plain where the potential's difference along it is less than this share of its whole gradient.
const SLIGHT: f64 = 0.02;
/// Holes of other than round form that are narrower than this many spacings count as round ones of the same area:
/// the conductance of an opening in a thin wall hangs on little else (Lord Rayleigh, *The Theory of Sound*, article 306; from
/// memory).
const SMALL: f64 = 3.0;
/// Least `4 pi area / perimeter^2` of such a hole: a rectangle of three to one.
const COMPACT: f64 = 0.55;
/// How far before an edge is looked for liquid, in spacings: to the near side of any slot that the grid resolves.
const BEFORE: f64 = 0.01;

/// The conductance of each face by axis, m; of a surface face to the cell below it.
///
/// # Errors
/// As for [`Grid::up_to`].
pub(crate) fn conductances(cavity: &Cavity, grid: &Grid) -> Result<[Vec<f64>; 3], GridFault> {
    let plain = [0, 1, 2].map(|axis| plain(grid, axis));
    let sheets = Sheet::all(cavity)?;
    let mut fits = Fits {
        grid,
        nearest: [0, 1, 2].map(|axis| vec![REACH; plain[axis].len()]),
        fitted: plain.clone(),
        plain: &plain,
    };
    for (number, sheet) in sheets.iter().enumerate() {
        let line = grid.lines()[sheet.axis]
            .iter()
            .position(|it| (it - sheet.at).abs() < BEFORE * finest(grid, sheet.axis));
        if let Some(line) = line.filter(|&line| line > 0) {
            let rims = rims(cavity, grid, &sheets, number);
            fits.fit(sheet.axis, line, &rims);
        }
    }
    Ok(fits.fitted)
}

fn finest(grid: &Grid, axis: usize) -> f64 {
    let widths = (0..grid.size()[axis]).map(|it| grid.width(axis, it));
    widths.fold(f64::INFINITY, f64::min)
}

/// Open area over the distance of the middles; to the surface half a cell.
fn plain(grid: &Grid, axis: usize) -> Vec<f64> {
    let mut size = grid.size();
    let last = size[axis];
    size[axis] += 1;
    let faces = 0..size.iter().product();
    faces
        .map(|face| {
            let at = grid.place_of_face(axis, face)[axis];
            let length = match at {
                0 => return 0.0,
                at if at == last => grid.width(axis, at - 1) / 2.0,
                at => grid.middle(axis, at) - grid.middle(axis, at - 1),
            };
            grid.aperture(axis, face) / length
        })
        .collect()
}

/// The rims of a sheet that have liquid before them.
fn rims(cavity: &Cavity, grid: &Grid, sheets: &[Sheet], number: usize) -> Vec<Rim> {
    let sheet = &sheets[number];
    let spacing = finest(grid, sheet.axis);
    let top = grid.lines()[2][grid.size()[2]];
    let is_wet = |at: Point2| {
        let place = sheet.place(at);
        place.z < top && cavity.contains(place)
    };
    let meets_another = |at: Point2| {
        let place = sheet.place(at);
        let mut others = sheets.iter().filter(|it| it.axis != sheet.axis);
        others.any(|it| {
            (place.to_vec().to_array()[it.axis] - it.at).abs() < BEFORE * spacing
                && it.outline.contains(it.flat(place))
        })
    };
    let (low, high) = cavity.solid.bounds();
    let [low, high] = [low, high].map(|it| sheet.flat(it));
    let straight = |outline: &Outline, inward: f64| -> Vec<Rim> {
        let sides = outline.sides().filter_map(|(a, b)| {
            let ahead = (b - a).unit()?.left() * inward;
            let is_free =
                |at: Point2| is_wet(at + ahead * (BEFORE * spacing)) && !meets_another(at);
            places_within(a, b, low, high)
                .any(is_free)
                .then_some(Rim::Straight {
                    ends: [a, b],
                    ahead,
                })
        });
        sides.collect()
    };
    let mut rims = straight(&sheet.outline, -1.0);
    for hole in &sheet.holes {
        match as_round(hole, spacing).filter(|round| is_whole(round, is_wet)) {
            Some(round) => rims.push(round),
            None => rims.extend(straight(&hole.outline(), 1.0)),
        }
    }
    rims
}

/// Places along what of a side lies within bounds.
fn places_within(a: Point2, b: Point2, low: Point2, high: Point2) -> impl Iterator<Item = Point2> {
    // Walls are few and straight: a side that is free anywhere is free at one of so many places.
    const PLACES: usize = 16;
    let way = b - a;
    let (mut from, mut to) = (0.0_f64, 1.0_f64);
    for (start, step, low, high) in [(a.x, way.x, low.x, high.x), (a.y, way.y, low.y, high.y)] {
        if step != 0.0 {
            let (p, q) = ((low - start) / step, (high - start) / step);
            (from, to) = (from.max(p.min(q)), to.min(p.max(q)));
        }
    }
    let shares = (0..PLACES).map(move |it| from + (to - from) * (it as f64 + 0.5) / PLACES as f64);
    shares
        .filter(move |_| from < to)
        .map(move |share| a + way * share)
}

/// The hole as a round one, where it is round or small.
fn as_round(hole: &Hole, spacing: f64) -> Option<Rim> {
    match hole {
        Hole::Round { centre, radius } => Some(Rim::Round {
            centre: *centre,
            radius: *radius,
        }),
        Hole::Outline(outline) => {
            let area = outline.signed_area();
            let radius = (area / std::f64::consts::PI).sqrt();
            let compact = 4.0 * std::f64::consts::PI * area / outline.perimeter().powi(2);
            (compact > COMPACT && 2.0 * radius < SMALL * spacing).then(|| Rim::Round {
                centre: outline.centroid(),
                radius,
            })
        }
    }
}

/// Whether liquid is all round a hole.
fn is_whole(round: &Rim, is_wet: impl Fn(Point2) -> bool) -> bool {
    // The corners of a hexagon round it: walls are straight, so that few places tell.
    const CORNERS: usize = 6;
    match *round {
        Rim::Round { centre, radius } => {
            let mut corners = Outline::round(centre, radius, CORNERS).0.into_iter();
            corners.all(is_wet)
        }
        Rim::Straight { .. } => false,
    }
}

/// The conductances while they are fitted.
struct Fits<'a> {
    grid: &'a Grid,
    plain: &'a [Vec<f64>; 3],
    fitted: [Vec<f64>; 3],
    /// How many spacings away the rim is that a face is fitted to.
    nearest: [Vec<f64>; 3],
}

/// A face near a plate, seen from it: `across` the plate, then in its plane.
struct Near {
    across: [f64; 2],
    low: Point2,
    high: Point2,
}

impl Near {
    fn middle(&self) -> (f64, Point2) {
        let [a, b] = self.across;
        ((a + b) / 2.0, self.low.midpoint(self.high))
    }
}

impl Fits<'_> {
    /// Fits the faces near a plate that lies on a line of the grid.
    fn fit(&mut self, normal: usize, line: usize, rims: &[Rim]) {
        let [b, c] = [(normal + 1) % 3, (normal + 2) % 3];
        let size = self.grid.size();
        let layers = line.saturating_sub(2)..(line + 2).min(size[normal]);
        for axis in 0..3 {
            for layer in layers.clone() {
                for at_b in usize::from(axis == b)..size[b] {
                    for at_c in usize::from(axis == c)..size[c] {
                        let mut place = [layer; 3];
                        (place[b], place[c]) = (at_b, at_c);
                        if place[axis] > 0 {
                            self.fit_face(normal, line, axis, place, rims);
                        }
                    }
                }
            }
        }
    }

    fn fit_face(
        &mut self,
        normal: usize,
        line: usize,
        axis: usize,
        place: [usize; 3],
        rims: &[Rim],
    ) {
        let face = self.grid.face(axis, place);
        let plain = self.plain[axis][face];
        if plain == 0.0 {
            return;
        }
        let [b, c] = [(normal + 1) % 3, (normal + 2) % 3];
        let at = self.grid.lines()[normal][line];
        let near = self.near([normal, b, c], at, axis, place);
        let (across, middle) = near.middle();
        let widths = [normal, b, c].map(|it| self.grid.width(it, place[it]));
        let off = |rim: &Rim| {
            let way = rim.way(middle);
            let width = way.x.abs() * widths[1] + way.y.abs() * widths[2];
            (across / widths[0]).hypot(rim.distance(middle) / width)
        };
        let Some((off, rim)) = rims
            .iter()
            .map(|rim| (off(rim), rim))
            .min_by(|a, b| a.0.total_cmp(&b.0))
        else {
            return;
        };
        if off >= self.nearest[axis][face] {
            return;
        }
        let middles = [0, 1].map(|side| {
            let mut cell = place;
            cell[axis] = cell[axis] + side - 1;
            let middle = |it: usize| self.grid.middle(it, cell[it]);
            (middle(normal) - at, Point2::new(middle(b), middle(c)))
        });
        let [from, to] = middles.map(|(across, at)| rim.potential(across, at));
        let length = self.grid.middle(axis, place[axis]) - self.grid.middle(axis, place[axis] - 1);
        let in_plane = axis == normal && place[normal] == line;
        let fitted = if in_plane {
            let (flux, open) = rim.through(near.low, near.high);
            let whole = self.grid.face_area(axis, place);
            // What of the opening is not in this face leaves nothing to fit.
            (open > SLIGHT * SLIGHT * whole)
                .then(|| flux / (to - from) * self.grid.aperture(axis, face) / open)
        } else {
            let axis_of_rim = (axis + 3 - normal) % 3;
            let steep = rim.gradient(across, middle);
            let slight = SLIGHT * steep.0.hypot(steep.1.length());
            let flux = flux(rim, &near, axis_of_rim);
            let area = self.grid.face_area(axis, place);
            let ratio = flux / area / ((to - from) / length);
            (((to - from) / length).abs() > slight)
                .then(|| plain * ratio.clamp(BOUNDS[0], BOUNDS[1]))
        };
        if let Some(fitted) = fitted {
            self.fitted[axis][face] = fitted;
            self.nearest[axis][face] = off;
        }
    }

    fn near(&self, [normal, b, c]: [usize; 3], at: f64, axis: usize, place: [usize; 3]) -> Near {
        let ends = |it: usize| {
            let low = self.grid.lines()[it][place[it]];
            match it == axis {
                true => [low, low],
                false => [low, self.grid.lines()[it][place[it] + 1]],
            }
        };
        let (of_b, of_c) = (ends(b), ends(c));
        Near {
            across: ends(normal).map(|it| it - at),
            low: Point2::new(of_b[0], of_c[0]),
            high: Point2::new(of_b[1], of_c[1]),
        }
    }
}

/// The flux through a face that is not in the plate's plane, along the plate's normal (axis 0) or one of its own axes.
fn flux(rim: &Rim, near: &Near, axis: usize) -> f64 {
    let along = |across: f64, at: Point2| {
        let (away, flat) = rim.gradient(across, at);
        [away, flat.x, flat.y][axis]
    };
    let over_x = |across: f64, y: f64| {
        integral(near.low.x, near.high.x, |x| {
            along(across, Point2::new(x, y))
        })
    };
    let over_y = |across: f64, x: f64| {
        integral(near.low.y, near.high.y, |y| {
            along(across, Point2::new(x, y))
        })
    };
    let [from, to] = near.across;
    match axis {
        0 => integral(near.low.y, near.high.y, |y| over_x(from, y)),
        1 => integral_from_edge(from, to, |across| over_y(across, near.low.x)),
        _ => integral_from_edge(from, to, |across| over_x(across, near.low.y)),
    }
}
