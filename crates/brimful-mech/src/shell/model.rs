//! The model: nodes, triangles, supports and loads.
//!
//! Every node has six degrees of freedom, in the order of [`Dof`]: three displacements and three rotations
//! about the world's axes.

use brimful_geom::vector::{Point3, Vec3};
use schemars::JsonSchema;
use serde::Serialize;

/// A thin shell of flat triangles.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Shell {
    /// Where the nodes are before anything acts, m.
    pub nodes: Vec<Point3>,
    /// The triangles; those of one plate lie in its plane.
    pub triangles: Vec<Triangle>,
    /// The plates the triangles are pieces of.
    pub plates: Vec<Plate>,
    /// Straight ties and struts from node to node.
    pub bars: Vec<Bar>,
    /// Degrees of freedom with a prescribed value.
    pub constraints: Vec<Constraint>,
    /// Elastic supports.
    pub springs: Vec<Spring>,
    /// Supports that push and never pull.
    pub contacts: Vec<Contact>,
}

/// A piece of a plate.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Triangle {
    /// Its corners, counter-clockwise seen from where the plate's normal points.
    pub nodes: [usize; 3],
    /// Number of its plate.
    pub plate: usize,
}

/// What a plate is made of, and the first direction of its moments.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Plate {
    /// Thickness, m.
    pub thickness: f64,
    /// Young's (or apparent) modulus, Pa.
    pub modulus: f64,
    /// Poisson's ratio.
    pub poisson: f64,
    /// Density, kg/m3.
    pub density: f64,
    /// Linear thermal expansion, 1/K.
    pub expansion: f64,
    /// The share of its stiffness against twisting about `axis` that it keeps: 1 but for narrow strips, see
    /// [`twist_of_strip`].
    pub twist: f64,
    /// A unit vector in the plate's plane: the first axis of its stress resultants. The second is
    /// `normal x axis`.
    pub axis: Vec3,
}

/// The share of a plate's stiffness against twisting that a strip keeps, along its sides: `1 - 0.63 t / b`. A
/// plate's theory takes the shear that turns round at its free sides to be as stiff as all else (S. Timoshenko and
/// J. N. Goodier, *Theory of Elasticity*, torsion of rectangular bars, from memory).
pub fn twist_of_strip(thickness: f64, width: f64) -> f64 {
    1.0 - 0.63 * thickness / width.max(thickness)
}

/// A straight tie or strut, free to turn at its ends.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bar {
    /// Its ends.
    pub nodes: [usize; 2],
    /// Cross-section, m2.
    pub area: f64,
    /// Young's modulus, Pa.
    pub modulus: f64,
    /// Density, kg/m3.
    pub density: f64,
}

/// One of the six degrees of freedom of a node.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
#[repr(usize)]
pub enum Dof {
    /// Displacement along x.
    X,
    /// Displacement along y.
    Y,
    /// Displacement along z.
    Z,
    /// Turn about x.
    TurnX,
    /// Turn about y.
    TurnY,
    /// Turn about z.
    TurnZ,
}

/// A degree of freedom of a node with a prescribed value.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Constraint {
    /// The node.
    pub node: usize,
    /// Which of its degrees of freedom.
    pub dof: Dof,
    /// The value, m or rad.
    pub value: f64,
}

/// An elastic support that pulls as well as it pushes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Spring {
    /// The node it holds.
    pub node: usize,
    /// Unit direction of its force.
    pub direction: Vec3,
    /// Force per displacement, N/m.
    pub stiffness: f64,
}

/// A support that can only push.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Contact {
    /// The node it can push.
    pub node: usize,
    /// Unit direction of the push on the node, fixed in space.
    pub push: Vec3,
    /// How far the node may move against the push before it is touched, m.
    pub gap: f64,
    /// Force per depth pressed in, N/m.
    pub stiffness: f64,
}

/// What acts on a shell.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Load {
    /// Pressure at the three corners of each triangle, Pa, positive along the triangle's normal;
    /// it turns with the triangle. Empty for none.
    pub pressures: Vec<[f64; 3]>,
    /// Acceleration of the mass of plates and bars, m/s2: gravity less the frame's acceleration.
    pub body_acceleration: Vec3,
    /// Forces (N) and moments (N m) on nodes, fixed in space.
    pub forces: Vec<(usize, [f64; 6])>,
    /// Strain that each triangle would take if it were free. Empty for none.
    pub initial_strains: Vec<InitialStrain>,
}

/// The strain a triangle would take if nothing hindered it: warmth, shrinkage of a weld.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct InitialStrain {
    /// In the mid-surface, `xx, yy, xy` (engineering shear) in the axes of its plate.
    pub stretch: [f64; 3],
    /// Curvature `xx, yy, xy` (twice the twist) in the axes of its plate, 1/m; positive where it
    /// lengthens the face that the normal points to.
    pub curvature: [f64; 3],
}

/// Forces and moments per metre in a plate, in the axes of the plate.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Resultants {
    /// Membrane force `xx, yy, xy`, N/m.
    pub force: [f64; 3],
    /// Bending moment `xx, yy, xy`, N m/m; positive where it stretches the face that the normal
    /// points to.
    pub moment: [f64; 3],
}
