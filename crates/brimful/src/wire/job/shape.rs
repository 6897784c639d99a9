//! Body and inner panels as JSON.

use crate::words;
use brimful_job::{self, BodyShape, InnerJoint, InnerPlace, JointKind, ObstacleShape, ShapeSpec};
use brimful_units::Length;
use schemars::JsonSchema;
use serde::Serialize;
use std::collections::BTreeMap;

/// The outside of the tank as given.
#[derive(Debug, Serialize, JsonSchema)]
pub(super) struct Body {
    /// A box or views; null for one given otherwise.
    shape: Option<Shape>,
    /// Corners of one given by corners and faces.
    corners_m: Option<Vec<[f64; 3]>>,
    /// Its faces, by numbers of corners from 0.
    faces: Option<Vec<Vec<usize>>>,
    /// The name of one that is offered for the space.
    fitted: Option<String>,
    /// Where its origin lies in the space.
    at_m: [f64; 3],
    /// What is taken off it.
    cuts: Vec<Obstacle>,
    thickness_m: Option<f64>,
    /// Sheet thickness by the name of the panel.
    thicknesses_m: BTreeMap<String, f64>,
    joints: Vec<Joint>,
}

/// A joint chosen by hand.
#[derive(Debug, Serialize, JsonSchema)]
struct Joint {
    between: [String; 2],
    /// `open corner`, `through and butt` or `mitred`.
    kind: &'static str,
    /// Which of the two runs through.
    through: Option<String>,
}

/// A box, or what the given views have in common.
#[derive(Debug, Serialize, JsonSchema)]
pub(super) struct Shape {
    /// Sizes of a box along x, y, z.
    box_m: Option<[f64; 3]>,
    /// From above: (x, y).
    plan_m: Option<Vec<[f64; 2]>>,
    /// From the side: (x, z).
    side_m: Option<Vec<[f64; 2]>>,
    /// From the front: (y, z).
    front_m: Option<Vec<[f64; 2]>>,
    length_m: Option<f64>,
    width_m: Option<f64>,
    height_m: Option<f64>,
}

/// What sticks into the space, or is taken off the body: a box, or an outlined prism.
#[derive(Debug, Serialize, JsonSchema)]
pub(super) struct Obstacle {
    name: String,
    /// Lowest and highest corner of a box.
    #[schemars(with = "Option<[brimful_geom::vector::Point3; 2]>")]
    box_m: Option<[[f64; 3]; 2]>,
    /// Outline of a prism.
    outline_m: Option<Vec<[f64; 2]>>,
    /// The axis a prism runs along.
    along: Option<&'static str>,
    /// From where to where it runs.
    reach_m: Option<[f64; 2]>,
}

/// A baffle or divider.
#[derive(Debug, Serialize, JsonSchema)]
pub(super) struct Inner {
    name: String,
    /// Of a stay: the strip that it is.
    strip: Option<Strip>,
    /// `baffle` or `divider`.
    kind: &'static str,
    /// The axis it stands perpendicular to; null where Brimful places it.
    across: Option<&'static str>,
    /// Where its middle plane lies on that axis.
    at_m: Option<f64>,
    thickness_m: Option<f64>,
    air_gap_m: f64,
    drain_gap_m: f64,
    /// `tee` or `slot-through`.
    joint: &'static str,
    /// From where to where along the wall it crosses; null from wall to wall.
    span_m: Option<[f64; 2]>,
    holes: Vec<Hole>,
}

/// A round hole of an inner panel.
#[derive(Debug, Serialize, JsonSchema)]
struct Hole {
    diameter_m: f64,
    /// Null where Brimful places it.
    at_m: Option<[f64; 2]>,
}

pub(super) fn body(body: &brimful_job::BodySpec) -> Body {
    let thicknesses = body.thicknesses.iter();
    let (mut given, mut faceted, mut fitted) = (None, None, None);
    match &body.shape {
        BodyShape::Given(spec) => given = Some(shape(spec)),
        BodyShape::Faceted(spec) => faceted = Some(spec),
        BodyShape::Fitted { name, .. } => fitted = Some(name.clone()),
    }
    Body {
        shape: given,
        corners_m: faceted.map(|spec| spec.corners.iter().map(|at| at.map(Length::m)).collect()),
        faces: faceted.map(|spec| spec.faces.clone()),
        fitted,
        at_m: body.at.map(Length::m),
        cuts: body.cuts.iter().map(obstacle).collect(),
        thickness_m: body.thickness.map(Length::m),
        thicknesses_m: thicknesses
            .map(|(name, thickness)| (name.clone(), thickness.m()))
            .collect(),
        joints: body.joints.iter().map(joint).collect(),
    }
}

/// The strip that a stay is.
#[derive(Debug, Serialize, JsonSchema)]
struct Strip {
    /// Its middle, in the body's own axes.
    height_m: f64,
    /// Up and down; of one that lies, along the axis it is perpendicular to.
    width_m: f64,
    lies: bool,
}

/// Level bands round the walls.
#[derive(Debug, Serialize, JsonSchema)]
pub(super) struct Rib {
    name: String,
    /// The middle of each band, in the body's own axes.
    heights_m: Vec<f64>,
    depth_m: f64,
    /// Null: that of the body's thickest panel.
    thickness_m: Option<f64>,
    /// Null: all upright walls.
    panels: Option<Vec<String>>,
}

pub(super) fn rib(rib: &brimful_job::Rib) -> Rib {
    Rib {
        name: rib.name.clone(),
        heights_m: rib.heights.iter().map(|height| height.m()).collect(),
        depth_m: rib.depth.m(),
        thickness_m: rib.thickness.map(Length::m),
        panels: rib.panels.clone(),
    }
}

pub(super) fn inner(inner: &brimful_job::Inner) -> Inner {
    let (across, at_m) = match inner.at {
        InnerPlace::At { across, at } => (Some(words::axis(across)), Some(at.m())),
        InnerPlace::Auto => (None, None),
    };
    Inner {
        name: inner.name.clone(),
        strip: inner.strip.map(|strip| Strip {
            height_m: strip.height.m(),
            width_m: strip.width.m(),
            lies: strip.lies,
        }),
        kind: words::inner(inner.kind),
        across,
        at_m,
        thickness_m: inner.thickness.map(Length::m),
        air_gap_m: inner.air_gap.m(),
        drain_gap_m: inner.drain_gap.m(),
        joint: match inner.joint {
            InnerJoint::Tee => "tee",
            InnerJoint::SlotThrough => "slot-through",
        },
        span_m: inner.span.map(|span| span.map(Length::m)),
        holes: inner
            .holes
            .iter()
            .map(|hole| Hole {
                diameter_m: hole.diameter.m(),
                at_m: hole.at.map(|at| at.map(Length::m)),
            })
            .collect(),
    }
}

fn joint(joint: &brimful_job::JointChoice) -> Joint {
    Joint {
        between: joint.between.clone(),
        kind: match joint.kind {
            JointKind::OpenCorner => "open corner",
            JointKind::ThroughAndButt => "through and butt",
            JointKind::Mitred => "mitred",
        },
        through: joint.through.clone(),
    }
}

pub(super) fn shape(shape: &ShapeSpec) -> Shape {
    let mut told = Shape {
        box_m: None,
        plan_m: None,
        side_m: None,
        front_m: None,
        length_m: None,
        width_m: None,
        height_m: None,
    };
    match shape {
        ShapeSpec::Box { size, .. } => told.box_m = Some(size.map(Length::m)),
        ShapeSpec::Outlines {
            plan,
            side,
            front,
            height,
            length,
            width,
        } => {
            told.plan_m = plan.as_ref().map(outline);
            told.side_m = side.as_ref().map(outline);
            told.front_m = front.as_ref().map(outline);
            told.length_m = length.map(Length::m);
            told.width_m = width.map(Length::m);
            told.height_m = height.map(Length::m);
        }
    }
    told
}

pub(super) fn obstacle(obstacle: &brimful_job::Obstacle) -> Obstacle {
    let name = obstacle.name.clone();
    match &obstacle.shape {
        ObstacleShape::Box { from, to } => Obstacle {
            name,
            box_m: Some([from.map(Length::m), to.map(Length::m)]),
            outline_m: None,
            along: None,
            reach_m: None,
        },
        ObstacleShape::Prism {
            outline: points,
            along,
            from,
            to,
        } => Obstacle {
            name,
            box_m: None,
            outline_m: Some(outline(points)),
            along: Some(words::axis(*along)),
            reach_m: Some([from.m(), to.m()]),
        },
    }
}

pub(super) fn outline(outline: &brimful_job::Outline) -> Vec<[f64; 2]> {
    outline.points.iter().map(|p| p.map(Length::m)).collect()
}
