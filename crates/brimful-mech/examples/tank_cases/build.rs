//! A tank as a mesh of flats with what holds and loads it.

use crate::tanks::{Tank, WEIGHT};
use brimful_geom::frame::Frame;
use brimful_geom::mesh::{Flat, Mesh, Size};
use brimful_geom::polygon::Outline;
use brimful_geom::vector::{Point2, Point3, Vec3};
use brimful_mech::shell::model::{Constraint, Dof, Load, Plate, Shell, Triangle};
use std::error::Error;

/// Nodes nearer than this are one, m: the dimensions are round decimals of a metre.
pub const MERGE: f64 = 1e-7;

/// A tank ready to be solved.
pub struct Built {
    /// Of the flats.
    pub names: Vec<String>,
    pub frames: Vec<Frame>,
    pub mesh: Mesh,
    pub shell: Shell,
    pub load: Load,
}

/// Meshes a tank with elements of `size` and puts its sheet, supports and water to it.
pub fn build(tank: &Tank, size: f64, large: bool) -> Result<Built, Box<dyn Error>> {
    let (names, mut flats) = flats(tank, size);
    for deflection in &tank.deflections {
        let place = point(deflection.place);
        let on = |flat: &&mut Flat| {
            let (inside, outline) = (flat.frame.flat_from_world(place), &flat.outlines[0]);
            flat.frame.plane().distance(place).abs() < MERGE
                && (outline.contains(inside) || outline.distance(inside) < MERGE)
        };
        let flat = flats
            .iter_mut()
            .find(on)
            .ok_or(format!("{} lies in no flat", deflection.name))?;
        let place = flat.frame.flat_from_world(place);
        flat.points.push(place);
    }
    let frames: Vec<Frame> = flats.iter().map(|f| f.frame).collect();
    let mesh = Mesh::of(&flats, &Size::default(), MERGE)?;
    let plate = |frame: &Frame| Plate {
        thickness: tank.thickness,
        modulus: tank.modulus(large),
        poisson: tank.poisson,
        density: 0.0,
        expansion: 0.0,
        twist: 1.0,
        axis: frame.x,
    };
    let shell = Shell {
        nodes: mesh.nodes.clone(),
        triangles: mesh
            .triangles
            .iter()
            .map(|t| Triangle {
                nodes: t.nodes,
                plate: t.flat,
            })
            .collect(),
        plates: frames.iter().map(plate).collect(),
        constraints: constraints(tank, &mesh),
        ..Shell::default()
    };
    let pressures = mesh.triangles.iter().map(|t| {
        let wet = !names[t.flat].starts_with("baffle");
        t.nodes.map(|n| {
            if wet {
                WEIGHT * (tank.height - mesh.nodes[n].z)
            } else {
                0.0
            }
        })
    });
    let load = Load {
        pressures: pressures.collect(),
        ..Load::default()
    };
    Ok(Built {
        names,
        frames,
        mesh,
        shell,
        load,
    })
}

fn flats(tank: &Tank, size: f64) -> (Vec<String>, Vec<Flat>) {
    let (mut names, mut flats) = (Vec::new(), Vec::new());
    let mut add = |name: String, frame: Frame, outline: Outline| {
        names.push(name);
        flats.push(Flat {
            frame,
            outlines: vec![outline],
            size,
            segments: vec![],
            points: vec![],
        });
    };
    let corner = |i: usize| tank.plan[i % tank.plan.len()];
    for side in (0..tank.plan.len()).filter(|s| !tank.cut_sides.contains(s)) {
        let (frame, outline) = upright(corner(side), corner(side + 1), tank.height);
        add(format!("wall-{side}"), frame, outline);
    }
    for (number, [from, to]) in tank.baffles.iter().enumerate() {
        let (frame, outline) = upright(*from, *to, tank.height);
        add(format!("baffle-{number}"), frame, outline);
    }
    let outline = Outline(tank.plan.iter().map(|p| Point2::new(p[0], p[1])).collect());
    if tank.lid {
        let frame = Frame {
            origin: Point3::new(0.0, 0.0, tank.height),
            ..Frame::WORLD
        };
        add("lid".into(), frame, outline.clone());
    }
    if tank.floor {
        let frame = Frame {
            y: -Vec3::Y,
            z: -Vec3::Z,
            ..Frame::WORLD
        };
        let seen = Outline(outline.0.iter().map(|p| Point2::new(p.x, -p.y)).collect());
        add("floor".into(), frame, seen.counter_clockwise());
    }
    (names, flats)
}

/// A wall over a line of the plan; the normal is to the right of the way along the line.
fn upright(from: [f64; 2], to: [f64; 2], height: f64) -> (Frame, Outline) {
    let (from, to) = (
        Point3::new(from[0], from[1], 0.0),
        Point3::new(to[0], to[1], 0.0),
    );
    let length = from.distance(to);
    let x = (to - from) * (1.0 / length);
    let frame = Frame {
        origin: from,
        x,
        y: Vec3::Z,
        z: x.cross(Vec3::Z),
    };
    (frame, Outline::rectangle(length, height))
}

fn constraints(tank: &Tank, mesh: &Mesh) -> Vec<Constraint> {
    use Dof::{TurnX, TurnY, TurnZ, X, Y, Z};
    let mut constraints = Vec::new();
    let mut constrain = |node: usize, dofs: &[Dof]| {
        constraints.extend(dofs.iter().map(|&dof| Constraint {
            node,
            dof,
            value: 0.0,
        }));
    };
    let corner = |i: usize| tank.plan[i % tank.plan.len()];
    for (node, place) in mesh.nodes.iter().enumerate() {
        let on_side = |side: usize| {
            let (a, b) = (corner(side), corner(side + 1));
            let plane = |p: [f64; 2]| Point2::new(p[0], p[1]);
            brimful_geom::polygon::distance_to_segment(
                Point2::new(place.x, place.y),
                plane(a),
                plane(b),
            ) < MERGE
        };
        for &side in tank.cut_sides.iter().filter(|s| on_side(**s)) {
            let along_x = (corner(side)[0] - corner(side + 1)[0]).abs() > MERGE;
            constrain(
                node,
                if along_x {
                    &[Y, TurnX, TurnZ]
                } else {
                    &[X, TurnY, TurnZ]
                },
            );
        }
        if place.z.abs() > MERGE {
            continue;
        }
        let on_wall = (0..tank.plan.len()).any(|s| !tank.cut_sides.contains(&s) && on_side(s));
        let at = |i: usize| (place.x - corner(i)[0]).hypot(place.y - corner(i)[1]) < MERGE;
        match tank.floor {
            false => constrain(node, &[X, Y, Z, TurnX, TurnY, TurnZ]),
            true if at(0) => constrain(node, &[X, Y, Z]),
            true if at(1) => constrain(node, &[Y, Z]),
            true if on_wall => constrain(node, &[Z]),
            true => {}
        }
    }
    constraints
}

/// A place in space.
pub fn point([x, y, z]: [f64; 3]) -> Point3 {
    Point3::new(x, y, z)
}

/// A way in space.
pub fn vector([x, y, z]: [f64; 3]) -> Vec3 {
    Vec3::new(x, y, z)
}
