//! The sheet of every face of the body.

use super::joint::{Fold, joint, misplaced_choices};
use super::nip::nipped;
use crate::body::Body;
use crate::name::PanelName;
use crate::panel::{Panel, Relief};
use crate::seam::Seam;
use crate::shape::{PanelFault, ShapeFault, ShapeFaultKind};
use brimful_geom::frame::Frame;
use brimful_geom::plate::{Plate, PlateFace, Side};
use brimful_geom::vector::Point2;
use brimful_job::Job;
use brimful_units::{Angle, Length};
use std::collections::BTreeMap;

/// One panel a face and one seam an edge, in the order of the body's faces and edges.
pub fn outer_panels(job: &Job, body: &Body) -> Result<(Vec<Panel>, Vec<Seam>), Vec<ShapeFault>> {
    let spec = job.body.as_ref();
    let misplaced = spec.map_or(Vec::new(), |spec| {
        misplaced_choices(spec, &body.solid, &body.faces)
    });
    if !misplaced.is_empty() {
        return Err(misplaced);
    }
    let mut layout = Layout {
        job,
        body,
        seams: Vec::new(),
        folds: Vec::new(),
        seam_of_edge: BTreeMap::new(),
    };
    layout.fold_edges()?;
    let panels = (0..body.faces.len())
        .map(|face| layout.panel(face))
        .collect::<Result<Vec<_>, _>>();
    match panels {
        Ok(panels) => Ok((panels, layout.seams)),
        Err(fault) => Err(vec![fault]),
    }
}

struct Layout<'a> {
    job: &'a Job,
    body: &'a Body,
    seams: Vec<Seam>,
    folds: Vec<Fold<'a>>,
    seam_of_edge: BTreeMap<(usize, usize), usize>,
}

impl Layout<'_> {
    fn fold_edges(&mut self) -> Result<(), Vec<ShapeFault>> {
        let solid = &self.body.solid;
        for edge in solid.edges() {
            let fold = Fold::new(solid, &self.body.faces, edge)
                .ok_or_else(|| vec![self.fault(edge.face, PanelFault::Fold)])?;
            let joint = joint(self.job.body.as_ref(), solid, &self.body.faces, &edge);
            let ends = [solid.vertices[edge.from], solid.vertices[edge.to]];
            let number = self.seams.len();
            self.seams.push(Seam {
                mark: format!("S{}", number + 1),
                panels: [edge.face, edge.twin],
                joint,
                inner_line: self.inner_line(
                    edge.face,
                    edge.twin,
                    ends.map(|end| end + fold.inner_shift()),
                ),
                outer_line: Some(ends),
                angle: Angle::from_rad(edge.angle),
                gap: self.job.shop.gap,
            });
            self.folds.push(fold);
            self.seam_of_edge.insert((edge.from, edge.to), number);
            self.seam_of_edge.insert((edge.to, edge.from), number);
        }
        Ok(())
    }

    /// The edge of the cavity between two faces, which is shorter than the body's by the sheets
    /// that close its ends; `along` is any piece of the same line.
    fn inner_line(
        &self,
        face: usize,
        twin: usize,
        along: [brimful_geom::vector::Point3; 2],
    ) -> [brimful_geom::vector::Point3; 2] {
        let cavity = &self.body.cavity;
        let way = along[1] - along[0];
        let shared = cavity
            .edges()
            .into_iter()
            .filter(|edge| edge.face == face && edge.twin == twin);
        let ends = shared.map(|edge| [cavity.vertices[edge.from], cavity.vertices[edge.to]]);
        let off = |ends: &[brimful_geom::vector::Point3; 2]| {
            ends[0].distance(along[0]) + ends[1].distance(along[1])
        };
        ends.filter(|ends| (ends[1] - ends[0]).dot(way) > 0.0)
            .min_by(|a, b| off(a).total_cmp(&off(b)))
            .unwrap_or(along)
    }

    fn panel(&self, face: usize) -> Result<Panel, ShapeFault> {
        let solid = &self.body.solid;
        let about = &self.body.faces[face];
        let frame = lower_left(solid.face_frame(face), |frame| {
            solid.face_outlines(face, frame)[0].bounds().0
        });
        let thickness = about.thickness.m();
        let mut loops = Vec::new();
        for ring in &solid.faces[face].loops {
            let mut sides = Vec::new();
            for i in 0..ring.len() {
                let (from, to) = (ring[i], ring[(i + 1) % ring.len()]);
                let number = self.seam_of_edge[&(from, to)];
                let seam = &self.seams[number];
                let start = frame.flat_from_world(solid.vertices[from]);
                let side = self.folds[number]
                    .end_plane(face, seam.joint, seam.gap.m())
                    .and_then(|plane| Side::cut_by(&plane, &frame, thickness, start, number));
                sides.push(side.ok_or_else(|| self.fault(face, PanelFault::FlatBevel))?);
            }
            loops.push(nipped(
                self.body,
                face,
                ring,
                sides,
                &frame,
                self.job.shop.gap.m(),
            ));
        }
        let finished = Plate::new(frame, thickness, loops);
        if let Some(fault) = finished.faults().into_iter().next() {
            return Err(self.fault(face, PanelFault::Plate(fault)));
        }
        Ok(Panel {
            mark: format!("P{}", face + 1),
            name: PanelName::Face(about.name),
            role: about.role,
            face: Some(face),
            thickness: about.thickness,
            cut: finished.clone(),
            finished,
            openings: Vec::new(),
            reliefs: Vec::new(),
            lands: Vec::new(),
        })
    }

    fn fault(&self, face: usize, why: PanelFault) -> ShapeFault {
        let panel = self.body.faces[face].name;
        ShapeFault::new(
            &self.job.shape_place(),
            ShapeFaultKind::Panel { panel, why },
        )
    }
}

/// The frame moved in its plane so that its origin is the lower-left corner of what lies in it.
pub fn lower_left(frame: Frame, low: impl Fn(&Frame) -> Point2) -> Frame {
    let corner = low(&frame);
    Frame {
        origin: frame.world_from_flat(corner),
        ..frame
    }
}

/// A stop hole at every inside corner of the outline: its rim passes through the corner, its
/// centre lies off the panel, so that a square corner still fits in.
pub fn reliefs(plate: &Plate, radius: Length) -> Vec<Relief> {
    let mut reliefs = Vec::new();
    for (ring, outline) in plate.loops.iter().zip(plate.outlines(PlateFace::Outside)) {
        let n = ring.len();
        for i in 0..n {
            let (before, after) = (&ring[(i + n - 1) % n], &ring[i]);
            let turns_right = before.along().cross(after.along()) < -INSIDE_CORNER_SINE;
            let Some(way_out) = (before.normal + after.normal).unit() else {
                continue;
            };
            if turns_right {
                reliefs.push(Relief {
                    centre: outline.0[i] + way_out * radius.m(),
                    radius,
                });
            }
        }
    }
    reliefs
}

/// An inside corner that turns by less than this (sine; about 6 degrees) is as good as straight
/// and needs no stop hole.
const INSIDE_CORNER_SINE: f64 = 0.1;
