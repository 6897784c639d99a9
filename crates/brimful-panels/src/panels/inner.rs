//! Baffles, dividers and stays: slices of the cavity, less their gaps.
//!
//! An inner panel is the part of the cavity between two parallel planes. Its sides are the faces
//! of the cavity (or of inner panels placed before it) that bound that slice, each with its true
//! bevel. A side that stands on a panel becomes a tee; a baffle's sides at lid and floor are moved
//! back by the air and drain gap and stay free. A stay is a slice cut off on two more sides, which
//! are free; one that lies is a slice between level planes.

use super::foot::foot;
use super::outer::lower_left;
use super::tongue::with_tongues;
use crate::body::Body;
use crate::finding::kind::PanelsKind;
use crate::finding::{Finding, Grade, Subject};
use crate::name::{HoleName, PanelName};
use crate::panel::{Land, Panel, PanelOpening, Role};
use crate::seam::{Joint, Seam};
use crate::shape::{InnerFault, ShapeFault, ShapeFaultKind};
use brimful_geom::boolean::{difference, intersection, pieces};
use brimful_geom::frame::{Frame, Plane};
use brimful_geom::plate::{Cutout, Plate, PlateFace, Side};
use brimful_geom::solid::Solid;
use brimful_geom::vector::{Point2, Point3, Vec3};
use brimful_job::{Axis, Inner, InnerJoint, InnerKind, InnerPlace, Job};
use brimful_units::{Angle, Length};

/// Planes nearer than this (offset in metres, sine of the angle) are one plane; see the booleans.
const SAME_PLANE: f64 = 1e-8;

/// Volumes of a slice and of the plate cut for it may differ by rounding only, m3.
const SAME_VOLUME: f64 = 1e-12;

/// Baffles placed by themselves stand no further apart than this, and no further from an end:
/// 760 mm by 46 CFR 182.440(a)(8), metal fuel tanks of small craft, taken over for want of a rule
/// for water.
const LARGEST_BAY: f64 = 0.760;

/// Adds the inner panels of the job, their seams and where they land on other panels.
pub fn add_inner_panels(
    job: &Job,
    body: &Body,
    panels: &mut Vec<Panel>,
    seams: &mut Vec<Seam>,
) -> Result<(), Vec<ShapeFault>> {
    let mut builder = Builder {
        job,
        body,
        panels,
        seams,
        slices: Vec::new(),
    };
    let mut faults = Vec::new();
    // Dividers first: they must reach from wall to wall, and baffles end at them; stays at both.
    let of = |kind: InnerKind| job.inner.iter().filter(move |inner| inner.kind == kind);
    let in_order = of(InnerKind::Divider)
        .chain(of(InnerKind::Baffle))
        .chain(of(InnerKind::Stay));
    for inner in in_order {
        if inner.kind == InnerKind::Divider && inner.span.is_some() {
            faults.push(fault_at(inner, InnerFault::DividerWithSpan));
            continue;
        }
        for (axis, at) in places(job, body, inner) {
            if let Err(fault) = builder.add(inner, axis, at) {
                faults.push(fault);
            }
        }
    }
    if faults.is_empty() {
        Ok(())
    } else {
        Err(faults)
    }
}

/// What was placed by rule and not by the job.
pub fn placement_findings(job: &Job, body: &Body) -> Vec<Finding> {
    let auto = job
        .inner
        .iter()
        .filter(|inner| inner.at == InnerPlace::Auto);
    auto.map(|inner| {
        let kind = PanelsKind::PlacedByRule {
            count: placed_by_rule(job, body, inner),
            bay: Length::from_m(LARGEST_BAY),
        };
        let subject = Subject::Named(inner.name.clone());
        Finding::of(Grade::Note, subject, kind).at(&inner.place)
    })
    .collect()
}

/// How many panels the rule makes of an entry that leaves their places to it.
pub fn placed_by_rule(job: &Job, body: &Body, inner: &Inner) -> usize {
    places(job, body, inner).len()
}

/// The axis and place of each panel of an entry, in world axes.
fn places(job: &Job, body: &Body, inner: &Inner) -> Vec<(Axis, f64)> {
    let origin = body_origin(job);
    match inner.at {
        InnerPlace::At { across, at } => {
            let shift = if across == Axis::X {
                origin.x
            } else {
                origin.y
            };
            vec![(across, at.m() + shift)]
        }
        InnerPlace::Auto => {
            let (low, high) = body.cavity.bounds();
            let (x, y) = (high.x - low.x, high.y - low.y);
            let (axis, from, length) = if x >= y {
                (Axis::X, low.x, x)
            } else {
                (Axis::Y, low.y, y)
            };
            let bays = (length / LARGEST_BAY).ceil().max(2.0);
            (1..bays as usize)
                .map(|i| (axis, from + length * i as f64 / bays))
                .collect()
        }
    }
}

/// Where the body's own axes have their origin in the world.
pub fn body_origin(job: &Job) -> Point3 {
    let at = job.body.as_ref().map_or([Length::ZERO; 3], |body| body.at);
    Point3::new(at[0].m(), at[1].m(), at[2].m())
}

struct Builder<'a> {
    job: &'a Job,
    body: &'a Body,
    panels: &'a mut Vec<Panel>,
    seams: &'a mut Vec<Seam>,
    /// The full slices of the panels so far, gaps included: later ones end at them.
    slices: Vec<Solid>,
}

/// A slice of the cavity to be made into a panel.
struct Slice<'a> {
    inner: &'a Inner,
    axis: Vec3,
    middle: f64,
    thickness: f64,
    solid: Solid,
}

impl Builder<'_> {
    fn add(&mut self, inner: &Inner, across: Axis, at: f64) -> Result<(), ShapeFault> {
        let thickness = inner.thickness.unwrap_or(self.body.thickest_sheet()).m();
        let whole = self.slice_of_cavity(inner, across, at, thickness)?;
        let (axis, middle) = self.middle_plane(inner, across, at);
        let before: Vec<&Solid> = self.slices.iter().collect();
        let left = if before.is_empty() {
            Ok(whole.clone())
        } else {
            difference(&whole, &before)
        };
        let parts = left
            .and_then(|left| pieces(&left))
            .map_err(|fault| fault_at(inner, InnerFault::NotCut(fault)))?;
        if parts.is_empty() {
            return Err(fault_at(inner, InnerFault::Outside));
        }
        let n = parts.len();
        for (number, solid) in parts.into_iter().enumerate() {
            let slice = Slice {
                inner,
                axis,
                middle,
                thickness,
                solid,
            };
            let several = n > 1
                || self
                    .job
                    .inner
                    .iter()
                    .filter(|other| other.name == inner.name)
                    .count()
                    > 1
                || inner.at == InnerPlace::Auto;
            self.add_piece(&slice, several.then_some(number))?;
        }
        self.slices.push(whole);
        Ok(())
    }

    /// The axis an inner panel is square to, and where its middle plane lies on it.
    fn middle_plane(&self, inner: &Inner, across: Axis, at: f64) -> (Vec3, f64) {
        match (inner.strip, across) {
            (Some(strip), _) if strip.lies => (Vec3::Z, strip.height.m() + body_origin(self.job).z),
            (_, Axis::X) => (Vec3::X, at),
            _ => (Vec3::Y, at),
        }
    }

    fn slice_of_cavity(
        &self,
        inner: &Inner,
        across: Axis,
        at: f64,
        thickness: f64,
    ) -> Result<Solid, ShapeFault> {
        let cavity = &self.body.cavity;
        let (low, high) = cavity.bounds();
        let origin = body_origin(self.job);
        let whole = |low: f64, high: f64| [low - 1.0, high + 1.0];
        let about = |middle: f64, size: f64| [middle - size / 2.0, middle + size / 2.0];
        let (size_across, up) = match inner.strip {
            None => (thickness, None),
            Some(strip) => {
                let (size_across, size_up) = match strip.lies {
                    true => (strip.width.m(), thickness),
                    false => (thickness, strip.width.m()),
                };
                (
                    size_across,
                    Some(about(strip.height.m() + origin.z, size_up)),
                )
            }
        };
        let z = up.unwrap_or(whole(low.z, high.z));
        let here = about(at, size_across);
        let along = |low: f64, high: f64, origin: f64| match inner.span {
            Some(span) => span.map(|end| end.m() + origin),
            None => whole(low, high),
        };
        let (x, y) = match across {
            Axis::X => (here, along(low.y, high.y, origin.y)),
            _ => (along(low.x, high.x, origin.x), here),
        };
        let within = |[from, to]: [f64; 2], low: f64, high: f64| low < from && to < high;
        let inside = match across {
            Axis::X => within(here, low.x, high.x),
            _ => within(here, low.y, high.y),
        };
        if !inside || up.is_some_and(|up| !within(up, low.z, high.z)) {
            return Err(fault_at(inner, InnerFault::OutsideOrInPanel));
        }
        let corner = |i: usize| Point3::new(x[i], y[i], z[i]);
        intersection(&[cavity, &Solid::cuboid(corner(0), corner(1))])
            .map_err(|fault| fault_at(inner, InnerFault::NotCut(fault)))
    }

    fn add_piece(&mut self, slice: &Slice<'_>, number: Option<usize>) -> Result<(), ShapeFault> {
        let plate = self.plate(slice)?;
        let panel_number = self.panels.len();
        let mark = format!("P{}", panel_number + 1);
        let alike = self
            .panels
            .iter()
            .filter(|panel| matches!(&panel.name, PanelName::Inner { name, .. } if *name == slice.inner.name))
            .count();
        let name = PanelName::Inner {
            name: slice.inner.name.clone(),
            number: number.map(|_| alike + 1),
        };
        let role = match slice.inner.kind {
            InnerKind::Baffle => Role::Baffle,
            InnerKind::Divider => Role::Divider,
            InnerKind::Stay => Role::Stay,
        };
        let held = plate
            .loops
            .iter()
            .flatten()
            .filter(|side| side.mark.is_some());
        if role == Role::Stay && held.count() < 2 {
            return Err(fault_at(slice.inner, InnerFault::FreeStay));
        }
        let finished = self.join(slice, plate, panel_number)?;
        if let Some(fault) = finished.faults().into_iter().next() {
            return Err(fault_at(slice.inner, InnerFault::NoRoom(fault)));
        }
        let mut panel = Panel {
            mark,
            name,
            role,
            face: None,
            thickness: Length::from_m(slice.thickness),
            cut: finished.clone(),
            finished,
            openings: Vec::new(),
            reliefs: Vec::new(),
            lands: Vec::new(),
        };
        self.add_holes(slice.inner, &mut panel)?;
        self.settle_feet(&panel, panel_number);
        self.panels.push(panel);
        Ok(())
    }

    /// Shortens the seams and lands of a finished panel to where its feet really run, the gaps at
    /// floor and lid taken off.
    fn settle_feet(&mut self, panel: &Panel, panel_number: usize) {
        for (number, seam) in self.seams.iter_mut().enumerate() {
            if seam.panels[0] != panel_number
                || !matches!(seam.joint, Joint::Tee | Joint::SlotThrough)
            {
                continue;
            }
            seam.inner_line = foot(panel, number, seam.inner_line);
            let on = &mut self.panels[seam.panels[1]];
            let frame = on.finished.frame;
            let ends = seam.inner_line.map(|end| frame.flat_from_world(end));
            for land in on.lands.iter_mut().filter(|land| land.seam == number) {
                (land.from, land.to) = (ends[0], ends[1]);
            }
        }
    }

    /// The slice as a plate, sides where the cavity ends, before joints and gaps. A side's mark is
    /// the number of the panel it stands on.
    fn plate(&self, slice: &Slice<'_>) -> Result<Plate, ShapeFault> {
        let solid = &slice.solid;
        let front = Plane {
            normal: slice.axis,
            offset: slice.middle + slice.thickness / 2.0,
        };
        let changes = || fault_at(slice.inner, InnerFault::CavityChanges);
        let face = (0..solid.faces.len())
            .find(|&face| same_plane(&solid.faces[face].plane, &front))
            .ok_or_else(changes)?;
        let frame = Frame::upright(&front, solid.vertices[solid.faces[face].loops[0][0]]);
        let frame = lower_left(frame, |frame| {
            solid.face_outlines(face, frame)[0].bounds().0
        });
        let face_of_edge = solid.face_of_edge();
        let mut loops = Vec::new();
        for ring in &solid.faces[face].loops {
            let mut sides = Vec::new();
            for i in 0..ring.len() {
                let (from, to) = (ring[i], ring[(i + 1) % ring.len()]);
                let wall = face_of_edge
                    .get(&(to, from))
                    .map(|&wall| solid.faces[wall].plane)
                    .ok_or_else(changes)?;
                let middle = solid.vertices[from].midpoint(solid.vertices[to]);
                let start = frame.flat_from_world(solid.vertices[from]);
                let mut side =
                    Side::cut_by(&wall, &frame, slice.thickness, start, 0).ok_or_else(changes)?;
                side.mark = self.stands_on(&wall, middle);
                sides.push(side);
            }
            loops.push(sides);
        }
        let plate = Plate {
            frame,
            thickness: slice.thickness,
            loops,
            cutouts: Vec::new(),
        };
        let volume = plate.solid().moments().volume;
        if (volume - solid.moments().volume).abs() > SAME_VOLUME {
            return Err(changes());
        }
        Ok(plate)
    }

    /// The panel whose face a side lies on: an outer panel's inside, or a face of an inner panel.
    fn stands_on(&self, wall: &Plane, middle: Point3) -> Option<usize> {
        let cavity = &self.body.cavity;
        let on_cavity = (0..cavity.faces.len()).find(|&face| {
            same_plane(&cavity.faces[face].plane, wall) && {
                let frame = cavity.face_frame(face);
                let outlines = cavity.face_outlines(face, &frame);
                let point = frame.flat_from_world(middle);
                outlines[0].contains(point) || outlines[0].distance(point) < SAME_PLANE
            }
        });
        on_cavity.or_else(|| {
            (0..self.panels.len()).find(|&number| {
                let panel = &self.panels[number];
                let front = panel.finished.frame.plane();
                let back = front.moved(-panel.thickness.m()).flipped();
                let reaches = || {
                    let point = panel.finished.frame.flat_from_world(middle);
                    panel.finished.outlines(PlateFace::Outside)[0].contains(point)
                };
                panel.role.is_inner()
                    && (same_plane(&front.flipped(), wall) || same_plane(&back.flipped(), wall))
                    && reaches()
            })
        })
    }

    /// Puts in the joints and gaps: every side that stands on a panel becomes a seam or a free edge.
    fn join(&mut self, slice: &Slice<'_>, plate: Plate, panel: usize) -> Result<Plate, ShapeFault> {
        let outer = plate.outlines(PlateFace::Outside);
        let inner = plate.outlines(PlateFace::Inside);
        let mut loops = Vec::new();
        for (ring, (out, inn)) in plate.loops.iter().zip(outer.iter().zip(&inner)) {
            let mut joined = Vec::new();
            for (i, side) in ring.iter().enumerate() {
                let Some(on) = side.mark else {
                    joined.push(*side);
                    continue;
                };
                if let Some(gap) = free_gap(slice.inner, self.panels[on].role) {
                    joined.push(Side {
                        mark: None,
                        ..side.moved(-gap)
                    });
                    continue;
                }
                let j = (i + 1) % ring.len();
                let in_world =
                    |p: Point2, z: f64| plate.frame.world_from_frame(Point3::new(p.x, p.y, z));
                let foot = [i, j].map(|k| {
                    in_world(out.0[k], 0.0).midpoint(in_world(inn.0[k], -plate.thickness))
                });
                joined.extend(self.seam_at(slice, side, foot, panel, on)?);
            }
            loops.push(joined);
        }
        Ok(Plate::new(plate.frame, plate.thickness, loops))
    }

    /// The side, or the side with its tongues, that stands on panel `on` along `foot`.
    fn seam_at(
        &mut self,
        slice: &Slice<'_>,
        side: &Side,
        foot: [Point3; 2],
        panel: usize,
        on: usize,
    ) -> Result<Vec<Side>, ShapeFault> {
        let gap = self.job.shop.gap.m();
        let land_frame = self.panels[on].finished.frame;
        let lean = slice.axis.dot(land_frame.z).abs();
        let number = self.seams.len();
        let through =
            slice.inner.joint == InnerJoint::SlotThrough && !self.panels[on].role.is_inner();
        let bevel = side.bevel(slice.thickness);
        let base = Side {
            mark: Some(number),
            ..side.moved(-gap / bevel.cos())
        };
        self.seams.push(Seam {
            mark: format!("S{}", number + 1),
            panels: [panel, on],
            joint: if through {
                Joint::SlotThrough
            } else {
                Joint::Tee
            },
            inner_line: foot,
            outer_line: None,
            angle: Angle::from_rad(std::f64::consts::FRAC_PI_2 - lean.clamp(0.0, 1.0).asin()),
            gap: self.job.shop.gap,
        });
        let flat = foot.map(|p| land_frame.flat_from_world(p));
        self.panels[on].lands.push(Land {
            from: flat[0],
            to: flat[1],
            panel,
            seam: number,
        });
        if !through {
            return Ok(vec![base]);
        }
        if lean > SAME_PLANE {
            let on = self.panels[on].name.clone();
            return Err(fault_at(slice.inner, InnerFault::SlantedTongues(on)));
        }
        Ok(with_tongues(
            &base,
            foot,
            slice.thickness,
            gap,
            &mut self.panels[on],
        ))
    }

    /// Alternates the foot of the panel with tongues that reach to the far face of `on`, and cuts
    /// the slots for them.
    fn add_holes(&self, inner: &Inner, panel: &mut Panel) -> Result<(), ShapeFault> {
        let outlines = panel.finished.outlines(PlateFace::Outside);
        let (low, high) = outlines[0].bounds();
        let unplaced = inner.holes.iter().filter(|hole| hole.at.is_none()).count();
        let mut next = 0;
        for (i, hole) in inner.holes.iter().enumerate() {
            let centre = match hole.at {
                Some(at) => {
                    let origin = body_origin(self.job);
                    let world = match panel.finished.frame.z.x.abs() > 0.5 {
                        true => Point3::new(0.0, at[0].m() + origin.y, at[1].m() + origin.z),
                        false => Point3::new(at[0].m() + origin.x, 0.0, at[1].m() + origin.z),
                    };
                    panel.finished.frame.flat_from_world(world)
                }
                None => {
                    next += 1;
                    let share = next as f64 / (unplaced + 1) as f64;
                    Point2::new(low.x + (high.x - low.x) * share, (low.y + high.y) / 2.0)
                }
            };
            let radius = hole.diameter.m() / 2.0;
            let clear = outlines[0].contains(centre)
                && outlines
                    .iter()
                    .all(|outline| outline.distance(centre) > radius);
            if !clear {
                return Err(ShapeFault {
                    place: hole.place.clone(),
                    ..fault_at(inner, InnerFault::HoleOutside)
                });
            }
            panel.openings.push(PanelOpening {
                name: HoleName::Inner(i + 1),
                opening: None,
                centre,
                cutout: panel.finished.cutouts.len(),
            });
            panel
                .finished
                .cutouts
                .push(Cutout::Round { centre, radius });
        }
        Ok(())
    }
}

/// The gap a baffle keeps from a panel of this role; none where it is welded to it.
fn free_gap(inner: &Inner, on: Role) -> Option<f64> {
    let gap = match (inner.kind, on) {
        (InnerKind::Baffle, Role::Lid) => inner.air_gap.m(),
        (InnerKind::Baffle, Role::Floor) => inner.drain_gap.m(),
        _ => 0.0,
    };
    (gap > 0.0).then_some(gap)
}

fn same_plane(a: &Plane, b: &Plane) -> bool {
    (a.normal - b.normal).length() < SAME_PLANE && (a.offset - b.offset).abs() < SAME_PLANE
}

fn fault_at(inner: &Inner, why: InnerFault) -> ShapeFault {
    let kind = ShapeFaultKind::Inner {
        inner: inner.name.clone(),
        why,
    };
    ShapeFault::new(&inner.place, kind)
}
