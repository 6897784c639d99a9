//! Ribs: level bands round the outside of upright walls, one flat strip a wall.
//!
//! A strip stands on its wall as a tee, the gap between them. Where the next wall carries the
//! same band, both strips end at the plane that halves the corner and are butted there, at a
//! convex corner as at a re-entrant one. Where it carries none, a strip ends square and flush with
//! its wall's edge, and at a re-entrant corner it stands against the next wall, as a second tee.

use super::inner::body_origin;
use super::outer::lower_left;
use crate::body::{Body, unknown_face};
use crate::finding::Finding;
use crate::name::{FaceName, PanelName};
use crate::panel::{Land, Panel, Role};
use crate::seam::{Joint, Seam};
use crate::shape::{RibBand, RibFault, ShapeFault, ShapeFaultKind};
use crate::space::Room;
use brimful_geom::frame::{Frame, Plane};
use brimful_geom::plate::{Plate, PlateFace, Side};
use brimful_geom::solid::{Edge, Solid};
use brimful_geom::vector::{Point2, Point3, Vec3};
use brimful_job::{Job, Rib};
use brimful_units::{Angle, Length};
use std::collections::BTreeMap;
use std::f64::consts::PI;

/// A wall that leans by less than this (sine; a fortieth of a millimetre on a metre) is upright.
const UPRIGHT: f64 = 2.5e-5;

/// A corner of a wall nearer than this to the edge of a band is taken to lie on it, metres: far
/// below what a saw can show, far above rounding.
const ON_EDGE: f64 = 1e-6;

/// Adds the ribs of the job and their seams.
///
/// # Errors
/// Every band that names no upright wall, or does not fit where it is asked for, with its place.
pub fn add_ribs(
    job: &Job,
    body: &Body,
    panels: &mut Vec<Panel>,
    seams: &mut Vec<Seam>,
) -> Result<(), Vec<ShapeFault>> {
    let edges: BTreeMap<(usize, usize), Edge> = body
        .solid
        .edges()
        .into_iter()
        .flat_map(|edge| [((edge.from, edge.to), edge), ((edge.to, edge.from), edge)])
        .collect();
    let mut faults = Vec::new();
    let mut bands: Vec<Band<'_>> = Vec::new();
    for rib in &job.ribs {
        for number in 0..rib.heights.len() {
            let band = Band::new(job, body, &edges, rib, number);
            match band.and_then(|band| band.clear_of(&bands).map(|()| band)) {
                Ok(band) => bands.push(band),
                Err(fault) => faults.push(fault),
            }
        }
    }
    for band in &bands {
        if let Err(fault) = band.add(panels, seams) {
            faults.push(fault);
        }
    }
    if faults.is_empty() {
        Ok(())
    } else {
        Err(faults)
    }
}

/// Ribs that leave the room of the job.
pub fn room_findings(room: &Room, panels: &[Panel]) -> Vec<Finding> {
    let ribs: Vec<(PanelName, Solid)> = panels
        .iter()
        .filter(|panel| panel.role == Role::Rib)
        .map(|panel| (panel.name.clone(), panel.finished.solid()))
        .collect();
    room.check_ribs(&ribs)
}

/// One level band round the walls.
struct Band<'a> {
    job: &'a Job,
    body: &'a Body,
    rib: &'a Rib,
    /// Its number among the bands of the rib, from 1; none where there is only one.
    band: Option<usize>,
    low: f64,
    high: f64,
    strips: Vec<Strip>,
}

/// One strip of a band: the stretch of a wall that it runs along.
struct Strip {
    wall: usize,
    /// On the wall's outside face at the top of the strip, where the stretch begins, with x along
    /// the wall, y away from it and z up.
    frame: Frame,
    /// How it ends, x downward and x upward.
    ends: [End; 2],
}

#[derive(Clone, Copy)]
enum End {
    /// Butted against the strip of the wall beyond an edge of the body.
    Mitred {
        /// The numbers of the edge's corners, the smaller first.
        edge: (usize, usize),
        /// The plane that halves the corner.
        halving: Plane,
    },
    /// On the outside face of a wall without a strip.
    Against { wall: usize },
    /// Square, at a place along the wall.
    Free { at: f64 },
}

impl<'a> Band<'a> {
    fn new(
        job: &'a Job,
        body: &'a Body,
        edges: &BTreeMap<(usize, usize), Edge>,
        rib: &'a Rib,
        number: usize,
    ) -> Result<Self, ShapeFault> {
        let thickness = rib.thickness.unwrap_or(body.thickest_sheet()).m();
        let middle = rib.heights[number].m() + body_origin(job).z;
        let mut band = Self {
            job,
            body,
            rib,
            band: (rib.heights.len() > 1).then_some(number + 1),
            low: middle - thickness / 2.0,
            high: middle + thickness / 2.0,
            strips: Vec::new(),
        };
        let walls = band.walls()?;
        for &wall in &walls {
            band.add_strips(wall, &walls, edges)?;
        }
        Ok(band)
    }

    /// The walls that carry this band: those named, else all upright ones as high as that.
    fn walls(&self) -> Result<Vec<usize>, ShapeFault> {
        let faces = &self.body.faces;
        let upright = |face: usize| self.body.solid.faces[face].plane.normal.z.abs() < UPRIGHT;
        let reaches = |face: usize| {
            let (low, high) = self.heights_of(face);
            low < self.high - ON_EDGE && self.low + ON_EDGE < high
        };
        let Some(names) = &self.rib.panels else {
            let walls: Vec<usize> = (0..faces.len())
                .filter(|&face| upright(face) && reaches(face))
                .collect();
            return match walls.is_empty() {
                true => Err(self.fault(RibFault::NoWall)),
                false => Ok(walls),
            };
        };
        let mut walls = Vec::new();
        for name in names {
            let face = (0..faces.len()).find(|&face| faces[face].name == **name);
            let face = face.ok_or_else(|| unknown_face(name, faces, &self.rib.place))?;
            if faces[face].role != Role::Wall || !upright(face) {
                return Err(self.fault(RibFault::NotUpright(faces[face].name)));
            }
            if !reaches(face) {
                return Err(self.fault(RibFault::NotReached(faces[face].name)));
            }
            if !walls.contains(&face) {
                walls.push(face);
            }
        }
        walls.sort_unstable();
        Ok(walls)
    }

    /// The strips along one wall, one for each stretch of it at this height.
    fn add_strips(
        &mut self,
        wall: usize,
        walls: &[usize],
        edges: &BTreeMap<(usize, usize), Edge>,
    ) -> Result<(), ShapeFault> {
        let solid = &self.body.solid;
        let crossed = self.crossed_edges(wall)?;
        let normal = solid.faces[wall].plane.normal;
        let away = Vec3::new(normal.x, normal.y, 0.0).unit().unwrap_or(Vec3::X);
        for pair in crossed.chunks_exact(2) {
            let frame = Frame {
                origin: Point3 {
                    z: self.high,
                    ..pair[0].at[1]
                },
                x: away.cross(Vec3::Z),
                y: away,
                z: Vec3::Z,
            };
            // Where the wall's edge leans, a free end is flush with the nearer of its two faces, so
            // that nothing sticks out past the wall.
            let [start, stop] = [0, 1].map(|end| pair[end].at.map(|p| frame.flat_from_world(p).x));
            let ends = [
                self.end(wall, walls, &pair[0], start[0].max(start[1]), edges)?,
                self.end(wall, walls, &pair[1], stop[0].min(stop[1]), edges)?,
            ];
            self.strips.push(Strip { wall, frame, ends });
        }
        Ok(())
    }

    /// The edges of a wall that the band crosses, in the order in which it runs along the wall.
    fn crossed_edges(&self, wall: usize) -> Result<Vec<Crossing>, ShapeFault> {
        let solid = &self.body.solid;
        let corner = |vertex: usize| solid.vertices[vertex];
        let within = |vertex: &usize| {
            let z = corner(*vertex).z;
            self.low + ON_EDGE < z && z < self.high - ON_EDGE
        };
        if solid.faces[wall].loops.iter().flatten().any(within) {
            return Err(self.fault(RibFault::AcrossCorner(self.name_of(wall))));
        }
        let middle = (self.low + self.high) / 2.0;
        let along = solid.faces[wall].plane.normal.cross(Vec3::Z);
        let mut crossed: Vec<Crossing> = solid
            .face_edges(wall)
            .filter(|&(from, to)| (corner(from).z < middle) != (corner(to).z < middle))
            .map(|(from, to)| {
                let (a, b) = (corner(from), corner(to));
                let at = |z: f64| a + (b - a) * ((z - a.z) / (b.z - a.z)).clamp(0.0, 1.0);
                Crossing {
                    edge: (from, to),
                    at: [at(self.low), at(self.high)],
                }
            })
            .collect();
        let place =
            |crossing: &Crossing| along.dot(crossing.at[0].midpoint(crossing.at[1]).to_vec());
        crossed.sort_by(|a, b| place(a).total_cmp(&place(b)));
        Ok(crossed)
    }

    /// How a strip on `wall` ends where that wall does, `flush` along it.
    fn end(
        &self,
        wall: usize,
        walls: &[usize],
        crossing: &Crossing,
        flush: f64,
        edges: &BTreeMap<(usize, usize), Edge>,
    ) -> Result<End, ShapeFault> {
        let Some(edge) = edges.get(&crossing.edge) else {
            return Ok(End::Free { at: flush });
        };
        let next = if edge.face == wall {
            edge.twin
        } else {
            edge.face
        };
        if !walls.contains(&next) {
            return Ok(match edge.angle > PI {
                true => End::Against { wall: next },
                false => End::Free { at: flush },
            });
        }
        let normal = |face: usize| self.body.solid.faces[face].plane.normal;
        let out = normal(wall) + normal(next);
        let (a, b) = crossing.edge;
        let edge = (a.min(b), a.max(b));
        match Plane::through(crossing.at[0], out.cross(Vec3::Z)) {
            Some(halving) => Ok(End::Mitred { edge, halving }),
            None => Err(self.fault(RibFault::FoldsBack(
                [wall, next].map(|face| self.name_of(face)),
            ))),
        }
    }

    /// That no band before it lies on the same wall at the same height.
    fn clear_of(&self, bands: &[Band<'_>]) -> Result<(), ShapeFault> {
        for other in bands {
            let shared = self
                .strips
                .iter()
                .find(|strip| other.strips.iter().any(|theirs| theirs.wall == strip.wall));
            if let Some(strip) = shared
                && self.low < other.high + ON_EDGE
                && other.low < self.high + ON_EDGE
            {
                return Err(self.fault(RibFault::IntoRib {
                    rib: other.id(),
                    on: self.name_of(strip.wall),
                }));
            }
        }
        Ok(())
    }

    fn add(&self, panels: &mut Vec<Panel>, seams: &mut Vec<Seam>) -> Result<(), ShapeFault> {
        let first = panels.len();
        // The seam of each corner, with the strip that made it.
        let mut corners: BTreeMap<(usize, usize), usize> = BTreeMap::new();
        for (number, strip) in self.strips.iter().enumerate() {
            let panel = first + number;
            let mut made = Vec::new();
            let mut mark = |joint: Joint, on: usize| {
                seams.push(self.seam(seams.len(), joint, [panel, on]));
                made.push(seams.len() - 1);
                seams.len() - 1
            };
            let foot = mark(Joint::Tee, strip.wall);
            let ends = strip.ends.map(|end| match end {
                End::Free { .. } => None,
                End::Against { wall } => Some(mark(Joint::Tee, wall)),
                End::Mitred { edge, .. } => {
                    let beyond = self.strips.iter().position(|other| {
                        other.wall != strip.wall && other.ends.iter().any(|end| end.is_at(edge))
                    });
                    let seam = corners.get(&edge).copied();
                    seam.or_else(|| {
                        let seam = mark(Joint::Butt, first + beyond?);
                        corners.insert(edge, seam);
                        Some(seam)
                    })
                }
            });
            let plate = self.plate(strip, foot, ends)?;
            for seam in made {
                self.settle(&plate, seam, panels, seams)?;
            }
            panels.push(self.panel(panels, strip, plate));
        }
        Ok(())
    }

    /// A seam whose lines are not known yet.
    fn seam(&self, number: usize, joint: Joint, panels: [usize; 2]) -> Seam {
        Seam {
            mark: format!("S{}", number + 1),
            panels,
            joint,
            inner_line: [Point3::ORIGIN; 2],
            outer_line: None,
            angle: match joint {
                Joint::Butt => Angle::from_deg(180.0),
                _ => Angle::from_deg(90.0),
            },
            gap: self.job.shop.gap,
        }
    }

    fn plate(
        &self,
        strip: &Strip,
        foot: usize,
        ends: [Option<usize>; 2],
    ) -> Result<Plate, ShapeFault> {
        let gap = self.job.shop.gap.m();
        let thickness = self.high - self.low;
        let sides = |frame: &Frame| {
            let wall = strip.frame.y * -1.0;
            let face = Plane::through(strip.frame.origin, wall)?;
            let start = frame.flat_from_world(strip.frame.origin);
            let side = |plane: Plane, mark: Option<usize>| {
                let side = Side::cut_by(&plane, frame, thickness, start, 0)?;
                Some(Side { mark, ..side })
            };
            let end = |index: usize| {
                let out = if index == 0 {
                    strip.frame.x * -1.0
                } else {
                    strip.frame.x
                };
                let plane = match strip.ends[index] {
                    End::Mitred { halving, .. } if halving.normal.dot(out) < 0.0 => {
                        halving.flipped().moved(-gap / 2.0)
                    }
                    End::Mitred { halving, .. } => halving.moved(-gap / 2.0),
                    End::Against { wall } => {
                        self.body.solid.faces[wall].plane.flipped().moved(-gap)
                    }
                    End::Free { at } => {
                        Plane::through(strip.frame.world_from_flat(Point2::new(at, 0.0)), out)?
                    }
                };
                side(plane, ends[index])
            };
            let front = face.flipped().moved(self.rib.depth.m());
            Some(vec![
                side(face.moved(-gap), Some(foot))?,
                end(1)?,
                side(front, None)?,
                end(0)?,
            ])
        };
        let laid = |frame: Frame| Some(Plate::new(frame, thickness, vec![sides(&frame)?]));
        let plate =
            laid(strip.frame).and_then(|plate| laid(lower_left(strip.frame, |_| plate.bounds().0)));
        let on = self.name_of(strip.wall);
        let plate = plate.ok_or_else(|| self.fault(RibFault::FlatEnd(on)))?;
        // The free front vanishes without a mark of its own where a recess is narrower than the
        // band is deep.
        let front = plate.outlines(PlateFace::Outside)[0].clone();
        let backwards = front
            .sides()
            .zip(&plate.loops[0])
            .any(|((a, b), side)| (b - a).dot(side.along()) <= 0.0);
        match plate.faults().first() {
            None if !backwards => Ok(plate),
            _ => Err(self.fault(RibFault::NoRoom(on))),
        }
    }

    /// Gives a seam its lines once the strip that stands there is known, and a wall its land.
    fn settle(
        &self,
        plate: &Plate,
        number: usize,
        panels: &mut [Panel],
        seams: &mut [Seam],
    ) -> Result<(), ShapeFault> {
        let [upper, lower] = [
            (PlateFace::Outside, 0.0),
            (PlateFace::Inside, -plate.thickness),
        ]
        .map(|(face, z)| side_ends(plate, number, face, z));
        let seam = &mut seams[number];
        if seam.joint == Joint::Butt {
            // Along the middle of the gap.
            let out = (upper[1] - upper[0]).cross(Vec3::Z).unit();
            let shift = out.unwrap_or(Vec3::ZERO) * (self.job.shop.gap.m() / 2.0);
            seam.inner_line = lower.map(|p| p + shift);
            seam.outer_line = Some(upper.map(|p| p + shift));
            return Ok(());
        }
        let [panel, on] = seam.panels;
        let land = panels[on].finished.frame;
        let face = land.plane();
        seam.inner_line = [0, 1].map(|end| face.project(upper[end].midpoint(lower[end])));
        let lean = plate.frame.z.dot(face.normal).abs().clamp(0.0, 1.0);
        seam.angle = Angle::from_rad(PI / 2.0 - lean.asin());
        let ends = seam.inner_line.map(|end| land.flat_from_world(end));
        let outlines = self.body.solid.face_outlines(on, &land);
        let off = |p: &Point2| {
            !outlines[0].contains(*p) && outlines[0].distance(*p) > self.job.shop.gap.m() + ON_EDGE
        };
        if ends.iter().any(off) {
            return Err(self.fault(RibFault::PastPanel(self.name_of(on))));
        }
        panels[on].lands.push(Land {
            from: ends[0],
            to: ends[1],
            panel,
            seam: number,
        });
        Ok(())
    }

    fn panel(&self, panels: &[Panel], strip: &Strip, plate: Plate) -> Panel {
        let before = self
            .strips
            .iter()
            .take_while(|other| !std::ptr::eq(*other, strip));
        let name = PanelName::Rib {
            name: self.rib.name.clone(),
            band: self.band,
            wall: self.body.faces[strip.wall].name,
            stretch: before.filter(|other| other.wall == strip.wall).count() + 1,
        };
        Panel {
            mark: format!("P{}", panels.len() + 1),
            name,
            role: Role::Rib,
            face: None,
            thickness: Length::from_m(plate.thickness),
            cut: plate.clone(),
            finished: plate,
            openings: Vec::new(),
            reliefs: Vec::new(),
            lands: Vec::new(),
        }
    }

    /// Least and greatest height of a face of the body.
    fn heights_of(&self, face: usize) -> (f64, f64) {
        let solid = &self.body.solid;
        let corners = solid.faces[face].loops.iter().flatten();
        let heights = corners.map(|&vertex| solid.vertices[vertex].z);
        heights.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), z| {
            (low.min(z), high.max(z))
        })
    }

    fn id(&self) -> RibBand {
        RibBand {
            name: self.rib.name.clone(),
            band: self.band,
        }
    }

    fn name_of(&self, face: usize) -> FaceName {
        self.body.faces[face].name
    }

    fn fault(&self, why: RibFault) -> ShapeFault {
        let kind = ShapeFaultKind::Rib {
            rib: self.id(),
            why,
        };
        ShapeFault::new(&self.rib.place, kind)
    }
}

/// Where a band crosses an edge of a wall.
struct Crossing {
    /// The edge as the wall runs it.
    edge: (usize, usize),
    /// The points on it at the band's lower and upper face.
    at: [Point3; 2],
}

/// The ends, on one face of a plate, of its side that belongs to a seam.
fn side_ends(plate: &Plate, seam: usize, face: PlateFace, z: f64) -> [Point3; 2] {
    let outline = &plate.outlines(face)[0];
    let mut sides = outline.sides().zip(&plate.loops[0]);
    let own = sides.find(|(_, side)| side.mark == Some(seam));
    let (from, to) = own.map_or((Point2::default(), Point2::default()), |(ends, _)| ends);
    [from, to].map(|p| plate.frame.world_from_frame(Point3::new(p.x, p.y, z)))
}

impl End {
    fn is_at(&self, corner: (usize, usize)) -> bool {
        matches!(self, Self::Mitred { edge, .. } if *edge == corner)
    }
}
