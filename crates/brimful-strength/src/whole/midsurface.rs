//! The tank as flats in the middle of its sheets.
//!
//! The body moved in by half of every sheet has the middle planes of the outer panels for faces,
//! and they meet along its edges. An inner panel is cut off at the middle plane of what it stands
//! on; where only its tongues are welded only they reach it.

use super::place::on_segment;
use brimful_geom::boolean::{BooleanFault, clip, intersection};
use brimful_geom::frame::{Frame, Plane};
use brimful_geom::mesh::{Flat, Mesh, MeshLine};
use brimful_geom::offset::offset_inward;
use brimful_geom::plate::{Cutout, Plate, PlateFace, Side};
use brimful_geom::polygon::Outline;
use brimful_geom::solid::Solid;
use brimful_geom::vector::{Point2, Point3, Vec2};
use brimful_panels::body::Body;
use brimful_panels::finding::kind::NoModel;
use brimful_panels::panel::{Panel, PanelOpening, Role};
use brimful_panels::seam::{Joint, Seam};

/// A round hole is a polygon of so many sides in the model; its area is that of the circle.
const ROUND_SIDES: usize = 16;

/// A hole smaller than this many thicknesses either way is left out of the model: the stress at its rim is
/// taken from a factor instead of from elements far smaller than the sheet is thick. A slot is in it, however
/// narrow: no such factor is known for one.
const SMALL_HOLE: f64 = 3.0;

/// Planes nearer than this are one plane, m: see the booleans.
const SAME_PLANE: f64 = 1e-8;

/// All flats of a tank.
#[derive(Clone, Debug)]
pub struct Midsurface {
    /// One a face of the body, then one an inner panel, then one a rib.
    pub flats: Vec<Flat>,
    /// The panels that each flat is the middle of: several where a face is parted by butt seams.
    pub panels: Vec<Vec<usize>>,
    /// Thickness of each flat, m.
    pub thickness: Vec<f64>,
    /// Holes that are in the model.
    pub rims: Vec<Rim>,
    /// Holes too small to be in it: panel and middle.
    pub small: Vec<(usize, Point3)>,
    /// Places where stress has no bound in a thin plate.
    pub notches: Vec<Notch>,
}

/// A place where stress has no bound in a thin plate: stress is reported a thickness away from there.
#[derive(Clone, Copy, Debug)]
pub struct Notch {
    /// Where.
    pub at: Point3,
    /// Thickness of the sheet there, m.
    pub thickness: f64,
    /// What makes it one.
    pub kind: NotchKind,
}

/// What makes a place a notch.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NotchKind {
    /// An inner panel or rib ends there.
    End,
    /// A fold of the body that turns in ends there.
    InsideCorner,
}

/// A hole with a cover that passes the pressure on it to its rim.
#[derive(Clone, Debug)]
pub struct Rim {
    /// The flat it is in.
    pub flat: usize,
    /// Middle of the hole.
    pub centre: Point3,
    /// Its corners.
    pub corners: Vec<Point3>,
    /// Its area, m2.
    pub area: f64,
}

impl Rim {
    /// Nodes of a mesh on it.
    pub fn nodes(&self, mesh: &Mesh) -> Vec<usize> {
        let n = self.corners.len();
        let is_on = |node: &usize| {
            let side = |i: usize| {
                let (a, b) = (self.corners[i], self.corners[(i + 1) % n]);
                on_segment(mesh.nodes[*node], a, b)
            };
            (0..n).any(side)
        };
        let own = |line: &&MeshLine| line.flats.iter().any(|flat| flat.flat == self.flat);
        let lines = mesh.lines.iter().filter(own);
        let mut nodes: Vec<usize> = lines
            .flat_map(|line| line.nodes.iter().copied())
            .filter(is_on)
            .collect();
        nodes.sort_unstable();
        nodes.dedup();
        nodes
    }
}

impl Midsurface {
    /// The flats of a tank; `size` (m) is set later, by flat.
    ///
    /// # Errors
    /// [`NoModel`] where sheets are too thick for the body.
    pub fn of(body: &Body, panels: &[Panel], seams: &[Seam]) -> Result<Self, NoModel> {
        let half: Vec<f64> = body
            .faces
            .iter()
            .map(|face| face.thickness.m() / 2.0)
            .collect();
        let solid = offset_inward(&body.solid, &half)
            .map_err(NoModel::Body)?
            .solid;
        let mut midsurface = Self {
            flats: Vec::new(),
            panels: Vec::new(),
            thickness: Vec::new(),
            rims: Vec::new(),
            small: Vec::new(),
            notches: inside_corners(&solid, body),
        };
        for face in 0..solid.faces.len() {
            let of_face = |panel: &&usize| panels[**panel].face == Some(face);
            let numbers: Vec<usize> = (0..panels.len()).collect();
            let own: Vec<usize> = numbers.iter().filter(of_face).copied().collect();
            let frame = solid.face_frame(face);
            let outlines = solid.face_outlines(face, &frame);
            midsurface.push(frame, outlines, own, panels);
        }
        for (number, panel) in panels.iter().enumerate() {
            if panel.role.is_inner() {
                let (frame, outlines) = inner(&solid, panels, seams, number)?;
                let corners = outlines[0].0.iter();
                let ends = corners.map(|&corner| Notch::end(&frame, corner, panel));
                midsurface.notches.extend(ends);
                midsurface.push(frame, outlines, vec![number], panels);
            }
        }
        for (number, panel) in panels.iter().enumerate() {
            if panel.role == Role::Rib {
                let (frame, outlines) = rib(panels, seams, number);
                // Its y runs away from the wall: the corners of its foot lie low.
                let (low, high) = outlines[0].bounds();
                let foot = outlines[0].0.iter().filter(|p| 2.0 * p.y < low.y + high.y);
                let ends = foot.map(|&corner| Notch::end(&frame, corner, panel));
                midsurface.notches.extend(ends);
                midsurface.push(frame, outlines, vec![number], panels);
            }
        }
        midsurface.add_butt_seams(seams);
        Ok(midsurface)
    }

    fn push(&mut self, frame: Frame, outlines: Vec<Outline>, own: Vec<usize>, panels: &[Panel]) {
        let flat = self.flats.len();
        let mut outlines = outlines;
        for &number in &own {
            let panel = &panels[number];
            if !panel.role.is_outer() {
                continue;
            }
            for opening in &panel.openings {
                self.add_hole(&mut outlines, &frame, flat, number, panel, opening);
            }
        }
        self.thickness.push(
            own.first()
                .map_or(0.0, |&panel| panels[panel].thickness.m()),
        );
        self.panels.push(own);
        self.flats.push(Flat {
            frame,
            outlines,
            size: 0.0,
            segments: Vec::new(),
            points: Vec::new(),
        });
    }

    fn add_hole(
        &mut self,
        outlines: &mut Vec<Outline>,
        frame: &Frame,
        flat: usize,
        number: usize,
        panel: &Panel,
        opening: &PanelOpening,
    ) {
        let Some(cutout) = panel.finished.cutouts.get(opening.cutout) else {
            return;
        };
        let coarse = match cutout {
            Cutout::Round { centre, radius } => Outline::round(*centre, *radius, ROUND_SIDES),
            Cutout::Straight(_) => cutout.outline(),
        };
        let (low, high) = coarse.bounds();
        if (high.x - low.x).max(high.y - low.y) < SMALL_HOLE * panel.thickness.m() {
            let centre = panel.finished.frame.world_from_flat(opening.centre);
            self.small.push((number, centre));
            return;
        }
        let own = &panel.finished.frame;
        let place = |point: Point2| frame.flat_from_world(own.world_from_flat(point));
        let hole = Outline(coarse.0.iter().map(|&point| place(point)).collect());
        let world = |point: Point2| frame.world_from_flat(point);
        self.rims.push(Rim {
            flat,
            centre: world(place(opening.centre)),
            corners: hole.0.iter().map(|&point| world(point)).collect(),
            area: hole.signed_area().abs(),
        });
        outlines.push(hole.counter_clockwise().reversed());
    }

    /// Butt seams are lines of the mesh, so that what they carry can be told.
    fn add_butt_seams(&mut self, seams: &[Seam]) {
        for seam in seams.iter().filter(|seam| seam.joint == Joint::Butt) {
            let own = |panels: &Vec<usize>| seam.panels.iter().all(|panel| panels.contains(panel));
            if let Some(flat) = self.panels.iter().position(own) {
                let frame = self.flats[flat].frame;
                let [a, b] = seam.inner_line.map(|point| frame.flat_from_world(point));
                // What sticks out of the flat is cut off.
                let past = (b - a)
                    .unit()
                    .map_or(Vec2::new(0.0, 0.0), |way| way * self.thickness[flat]);
                self.flats[flat].segments.push((a - past, b + past));
            }
        }
    }
}

impl Notch {
    /// Where a panel ends.
    fn end(frame: &Frame, corner: Point2, panel: &Panel) -> Self {
        Self {
            at: frame.world_from_flat(corner),
            thickness: panel.thickness.m(),
            kind: NotchKind::End,
        }
    }
}

/// Ends of the edges at which the body turns in, each with the thinnest sheet of the body.
fn inside_corners(solid: &Solid, body: &Body) -> Vec<Notch> {
    let thinnest = body
        .faces
        .iter()
        .map(|face| face.thickness.m())
        .fold(f64::INFINITY, f64::min);
    let turned_in = solid
        .edges()
        .into_iter()
        .filter(|edge| edge.angle > std::f64::consts::PI);
    let mut ends: Vec<usize> = turned_in.flat_map(|edge| [edge.from, edge.to]).collect();
    ends.sort_unstable();
    ends.dedup();
    ends.into_iter()
        .map(|end| Notch {
            at: solid.vertices[end],
            thickness: thinnest,
            kind: NotchKind::InsideCorner,
        })
        .collect()
}

/// The middle plane of an inner panel, as far as the middle of what it stands on.
fn inner(
    solid: &Solid,
    panels: &[Panel],
    seams: &[Seam],
    number: usize,
) -> Result<(Frame, Vec<Outline>), NoModel> {
    let none = |fault: Option<BooleanFault>| NoModel::InnerPanel {
        panel: panels[number].name.clone(),
        fault,
    };
    let plate = &panels[number].finished;
    let reaching = reaching(panels, seams, number).solid_with_cutouts();
    let within = intersection(&[&reaching, solid]).map_err(|fault| none(Some(fault)))?;
    let plane = middle_frame(plate).plane();
    let half = clip(&within, &plane).map_err(|fault| none(Some(fault)))?;
    let face = half
        .faces
        .iter()
        .position(|face| same_plane(&face.plane, &plane))
        .ok_or_else(|| none(None))?;
    let frame = middle_frame(plate);
    Ok((frame, half.face_outlines(face, &frame)))
}

/// The middle plane of a rib, from the middle of its wall.
fn rib(panels: &[Panel], seams: &[Seam], number: usize) -> (Frame, Vec<Outline>) {
    let plate = reaching(panels, seams, number);
    let faces = [PlateFace::Outside, PlateFace::Inside].map(|face| plate.outlines(face));
    let between = |(a, b): (&Outline, &Outline)| {
        Outline(a.0.iter().zip(&b.0).map(|(a, b)| a.midpoint(*b)).collect())
    };
    let outlines = faces[0].iter().zip(&faces[1]).map(between).collect();
    (middle_frame(&plate), outlines)
}

/// An inner panel or rib with its welded sides moved to the middle of what they meet.
fn reaching(panels: &[Panel], seams: &[Seam], number: usize) -> Plate {
    let plate = &panels[number].finished;
    let thickness = plate.thickness;
    let reach = |side: &Side| {
        let Some(seam) = side.mark.and_then(|mark| seams.get(mark)) else {
            return 0.0;
        };
        let other = if seam.panels[0] == number {
            seam.panels[1]
        } else {
            seam.panels[0]
        };
        let half = panels
            .get(other)
            .map_or(0.0, |other| other.thickness.m() / 2.0);
        let way = match seam.joint {
            // Two pieces in line meet in the middle of their gap.
            Joint::Butt => seam.gap.m() / 2.0,
            _ => seam.gap.m() + half,
        };
        way / side.bevel(thickness).cos()
    };
    plate.with_sides_moved(reach)
}

/// The frame of a plate, moved to the middle of its sheet.
fn middle_frame(plate: &Plate) -> Frame {
    Frame {
        origin: plate.frame.origin - plate.frame.z * (plate.thickness / 2.0),
        ..plate.frame
    }
}

fn same_plane(a: &Plane, b: &Plane) -> bool {
    a.normal.dot(b.normal) > 0.5
        && a.normal.cross(b.normal).length() < SAME_PLANE
        && (a.offset - b.offset).abs() < SAME_PLANE
}
