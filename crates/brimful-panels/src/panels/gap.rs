//! How far the gap of a seam is off what its joint asks for, measured on the finished panels.

use crate::panel::{Panel, Role};
use crate::seam::{Joint, Seam};
use brimful_geom::frame::Plane;
use brimful_geom::plate::PlateFace;
use brimful_geom::vector::Point3;

/// The largest difference, at any corner of the edges that meet in seam `number`, between the gap
/// that is left there and the gap asked for, m; not a number where it cannot be measured.
pub(super) fn gap_error(panels: &[Panel], seams: &[Seam], number: usize) -> f64 {
    let seam = &seams[number];
    let [a, b] = seam.panels.map(|panel| &panels[panel]);
    let gap = seam.gap.m();
    let edges = Edges {
        a,
        b,
        seam,
        number,
        gap,
    };
    match seam.joint {
        Joint::ThroughAndButt { through } => edges.butting(through == seam.panels[0]),
        Joint::OpenCorner => edges.open_corner(),
        Joint::Mitred => edges.mitred(),
        Joint::Tee | Joint::SlotThrough => edges.tee(),
        Joint::Butt => edges.butt(),
    }
}

/// The edges of two panels that meet in a seam.
struct Edges<'a> {
    a: &'a Panel,
    b: &'a Panel,
    seam: &'a Seam,
    number: usize,
    /// The gap asked for, m.
    gap: f64,
}

impl Edges<'_> {
    /// The most that any corner of a panel's edge is off what is asked for.
    fn worst(&self, panel: &Panel, asked: f64, measured: &dyn Fn(Point3) -> f64) -> f64 {
        self.corners(panel)
            .into_iter()
            .map(|p| (measured(p) - asked).abs())
            .fold(0.0, f64::max)
    }

    fn corners(&self, panel: &Panel) -> Vec<Point3> {
        edge_corners(panel, self.number)
    }

    /// Between the butting panel's edge and the face it stands on.
    fn butting(&self, a_runs_through: bool) -> f64 {
        let (through, butting) = match a_runs_through {
            true => (self.a, self.b),
            false => (self.b, self.a),
        };
        let outside = through.finished.frame.plane();
        let face = match self.seam.is_re_entrant() {
            true => outside,
            false => outside.moved(-through.thickness.m()).flipped(),
        };
        self.worst(butting, self.gap, &|p| face.distance(p))
    }

    /// Each of two square edges keeps half the gap from the root line; measured where it is nearest,
    /// as the groove opens away from the root.
    fn open_corner(&self) -> f64 {
        let root = match self.seam.is_re_entrant() {
            true => self.seam.outer_line,
            false => Some(self.seam.inner_line),
        };
        let Some(root) = root else { return f64::NAN };
        let off = |panel: &Panel| {
            let distances = self.corners(panel).into_iter();
            let nearest = distances
                .map(|p| distance_to_line(p, root))
                .fold(f64::INFINITY, f64::min);
            (nearest - self.gap / 2.0).abs()
        };
        off(self.a).max(off(self.b))
    }

    /// Both edges lie along the plane that halves the angle.
    fn mitred(&self) -> f64 {
        let Some(bisector) = self.plane_of_lines() else {
            return f64::NAN;
        };
        let off = |p: Point3| bisector.distance(p).abs();
        let half = self.gap / 2.0;
        self.worst(self.a, half, &off)
            .max(self.worst(self.b, half, &off))
    }

    /// Between the standing panel's edge and the face it stands on.
    fn tee(&self) -> f64 {
        let front = self.b.finished.frame.plane();
        let back = front.moved(-self.b.thickness.m()).flipped();
        let to_face = |p: Point3| match (self.a.role, self.b.role.is_inner()) {
            (Role::Rib, _) => front.distance(p),
            (_, true) => front.distance(p).max(back.distance(p)),
            (_, false) => back.distance(p),
        };
        self.worst(self.a, self.gap, &to_face)
    }

    /// Across the plane that the two lines of the seam span.
    fn butt(&self) -> f64 {
        let Some(plane) = self.plane_of_lines() else {
            return f64::NAN;
        };
        let far = self.corners(self.b);
        let between = |p: Point3| {
            far.iter()
                .map(|&q| (plane.distance(p) - plane.distance(q)).abs())
                .fold(f64::NAN, f64::max)
        };
        self.worst(self.a, self.gap, &between)
    }

    /// The plane through the inner and the outer line of the seam.
    fn plane_of_lines(&self) -> Option<Plane> {
        let outer = self.seam.outer_line?;
        let across = (self.seam.inner_line[0] - outer[0]).cross(outer[1] - outer[0]);
        Plane::through(outer[0], across)
    }
}

/// The corners, on both faces of a panel, of its sides that belong to a seam.
fn edge_corners(panel: &Panel, seam: usize) -> Vec<Point3> {
    let plate = &panel.finished;
    let mut corners = Vec::new();
    for (face, z) in [
        (PlateFace::Outside, 0.0),
        (PlateFace::Inside, -plate.thickness),
    ] {
        for (ring, outline) in plate.loops.iter().zip(plate.outlines(face)) {
            for (side, (start, end)) in ring.iter().zip(outline.sides()) {
                if side.mark == Some(seam) {
                    corners.extend(
                        [start, end]
                            .map(|p| plate.frame.world_from_frame(Point3::new(p.x, p.y, z))),
                    );
                }
            }
        }
    }
    corners
}

fn distance_to_line(point: Point3, line: [Point3; 2]) -> f64 {
    match (line[1] - line[0]).unit() {
        Some(along) => (point - line[0]).cross(along).length(),
        None => point.distance(line[0]),
    }
}
