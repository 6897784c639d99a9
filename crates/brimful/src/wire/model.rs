//! The shape of the tank for a picture: solids as triangles, with the edges to be drawn.

use super::mark;
use super::point::{point, vector};
use brimful_geom::boolean::clip;
use brimful_geom::frame::Plane;
use brimful_geom::solid::Solid as Shape;
use brimful_geom::triangulate::solid_triangles;
use brimful_geom::vector::{Point3, Vec3};
use brimful_panels::liquid::{Compartment, up_at};
use brimful_panels::space::Room;
use brimful_panels::way_in::outline;
use brimful_strength::whole::{Displacement, Whole};
use brimful_tank::plan::Plan;
use brimful_text::Words;
use brimful_units::Angle;
use schemars::JsonSchema;
use serde::Serialize;

/// Everything that stands in the picture.
#[derive(Debug, Serialize, JsonSchema)]
pub(crate) struct Model {
    panels: Vec<PanelSolid>,
    /// The rooms for liquid, less what stands in them.
    cavities: Vec<Named>,
    /// The measured hole before obstacles are taken off; null where the job gives none.
    space: Option<Solid>,
    obstacles: Vec<Named>,
    /// The opening the tank must pass; null where the job does not say in which side it is.
    way_in: Option<WayIn>,
    /// How the tank bulges; null until the whole-tank check has run, or where the load has no answer.
    bulge: Option<Bulge>,
}

/// The opening where it is stated, or taken to be.
#[derive(Debug, Serialize, JsonSchema)]
struct WayIn {
    side: &'static str,
    /// Its corners, the lower one first.
    #[schemars(with = "[brimful_geom::vector::Point3; 4]")]
    outline_m: [[f64; 3]; 4],
}

#[derive(Debug, Serialize, JsonSchema)]
struct PanelSolid {
    mark: String,
    name: String,
    role: &'static str,
    thickness_m: f64,
    solid: Solid,
}

#[derive(Debug, Serialize, JsonSchema)]
struct Named {
    name: String,
    solid: Solid,
}

/// A solid; triangles counter-clockwise seen from outside.
#[derive(Debug, Serialize, JsonSchema)]
struct Solid {
    points: Vec<[f64; 3]>,
    triangles: Vec<[usize; 3]>,
    /// Its own edges, not those of the triangles.
    edges: Vec<[usize; 2]>,
}

/// The middle of the sheets under one load.
#[derive(Debug, Serialize, JsonSchema)]
struct Bulge {
    load_case: LoadCase,
    /// Loads that can be asked for.
    load_cases: Vec<LoadCase>,
    panels: Vec<PanelBulge>,
}

/// A load case.
#[derive(Debug, Serialize, JsonSchema)]
struct LoadCase {
    /// Its id, the same in every language and for every unit.
    id: String,
    /// What it is called.
    name: String,
}

#[derive(Debug, Serialize, JsonSchema)]
struct PanelBulge {
    mark: String,
    points: Vec<[f64; 3]>,
    triangles: Vec<[usize; 3]>,
    displacement_m: Vec<[f32; 3]>,
    /// Stress over allowable at each point, the greatest of the triangles there.
    utilisation: Vec<f32>,
}

/// The model of a plan, bulging under the load of that name.
pub(crate) fn model(plan: &Plan, load: Option<&str>, words: &Words<'_>) -> Model {
    let site = plan.site.as_deref();
    let obstacles = site.iter().flat_map(|site| &site.room.obstacles);
    Model {
        panels: plan.panels.iter().map(panel).collect(),
        cavities: plan
            .compartments
            .iter()
            .filter(|room| room.holds_liquid())
            .map(|room| Named {
                name: room.id.to_string(),
                solid: solid(&room.liquid),
            })
            .collect(),
        space: site.map(|site| solid(&site.room.shell)),
        way_in: site.and_then(|site| way_in(site.space.way_in.as_ref()?, &site.room)),
        obstacles: obstacles
            .map(|obstacle| Named {
                name: obstacle.name.clone(),
                solid: solid(&obstacle.solid),
            })
            .collect(),
        bulge: plan
            .whole
            .as_ref()
            .and_then(|whole| bulge(plan, whole, load, words)),
    }
}

fn way_in(opening: &brimful_job::WayIn, room: &Room) -> Option<WayIn> {
    Some(WayIn {
        side: opening.side?.word(),
        outline_m: outline(opening, room)?.map(point),
    })
}

fn panel(panel: &brimful_panels::panel::Panel) -> PanelSolid {
    PanelSolid {
        mark: panel.mark.clone(),
        name: panel.name.to_string(),
        role: crate::words::role(panel.role),
        thickness_m: panel.thickness.m(),
        solid: solid(&panel.finished.solid_with_cutouts()),
    }
}

fn solid(shape: &Shape) -> Solid {
    Solid {
        points: shape.vertices.iter().map(|&p| point(p)).collect(),
        triangles: solid_triangles(shape),
        edges: shape
            .edges()
            .iter()
            .map(|edge| [edge.from, edge.to])
            .collect(),
    }
}

/// Under the load of that id; without one, the lasting load that asks most.
fn bulge(plan: &Plan, whole: &Whole, load: Option<&str>, words: &Words<'_>) -> Option<Bulge> {
    let most = || {
        whole
            .picture
            .as_ref()
            .map(|picture| picture.case.to_string())
    };
    let id = load.map(str::to_owned).or_else(most)?;
    let moved = whole
        .displacements
        .iter()
        .find(|moved| moved.case.to_string() == id)?;
    let called = |moved: &Displacement| LoadCase {
        id: moved.case.to_string(),
        name: words.case(moved.case).into(),
    };
    Some(Bulge {
        load_case: called(moved),
        load_cases: whole.displacements.iter().map(called).collect(),
        panels: (0..plan.panels.len())
            .map(|panel| panel_bulge(plan, moved, panel))
            .filter(|panel| !panel.triangles.is_empty())
            .collect(),
    })
}

fn panel_bulge(plan: &Plan, moved: &Displacement, panel: usize) -> PanelBulge {
    let mesh = &moved.mesh;
    let mut numbers = vec![None; mesh.nodes.len()];
    let mut answer = PanelBulge {
        mark: mark::panel(plan, panel),
        points: Vec::new(),
        triangles: Vec::new(),
        displacement_m: Vec::new(),
        utilisation: Vec::new(),
    };
    for (number, nodes) in mesh.triangles.iter().enumerate() {
        if mesh.panel[number] != panel {
            continue;
        }
        let corners = [0, 1, 2].map(|corner| {
            let node = nodes[corner];
            let used = moved.used[number][corner];
            let own = *numbers[node].get_or_insert_with(|| {
                answer.points.push(point(mesh.nodes[node]));
                answer.displacement_m.push(moved.by[node]);
                answer.utilisation.push(used);
                answer.points.len() - 1
            });
            answer.utilisation[own] = answer.utilisation[own].max(used);
            own
        });
        answer.triangles.push(corners);
    }
    answer
}

/// Liquid in one compartment, standing so high above its lowest place, at a tilt.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "LiquidAtDip")]
pub(crate) struct Liquid {
    volume_m3: f64,
    dip_m: f64,
    /// The dip at which it is brim-full.
    highest_dip_m: f64,
    /// The liquid is where `normal . place <= offset`.
    plane: Surface,
    /// Its free surfaces, each an outline; holes follow as outlines run the other way.
    surfaces: Vec<Vec<[f64; 3]>>,
}

#[derive(Debug, Serialize, JsonSchema)]
struct Surface {
    normal: [f64; 3],
    offset_m: f64,
}

/// The liquid in `room` at a dip in metres, kept between empty and brim-full.
pub(crate) fn liquid(room: &Compartment, dip: f64, heel: Angle, pitch: Angle) -> Option<Liquid> {
    let up = up_at(heel, pitch);
    let (low, high) = room.heights(up);
    let dip = dip.clamp(0.0, high - low);
    let surface = Plane::through(Point3::ORIGIN + up * (low + dip), up)?;
    Some(Liquid {
        volume_m3: room.below(&surface).volume,
        dip_m: dip,
        highest_dip_m: high - low,
        surfaces: surfaces(&room.liquid, &surface),
        plane: Surface {
            normal: vector(up),
            offset_m: low + dip,
        },
    })
}

fn surfaces(room: &Shape, surface: &Plane) -> Vec<Vec<[f64; 3]>> {
    /// Cosine and metres within which a face is the cut's own.
    const SAME: f64 = 1e-9;
    let Ok(wet) = clip(room, surface) else {
        return Vec::new();
    };
    let own = |normal: Vec3, at: Point3| {
        (normal.dot(surface.normal) - 1.0).abs() < SAME && surface.distance(at).abs() < SAME
    };
    let faces = wet.faces.iter().filter(|face| {
        let first = face.loops.first().and_then(|ring| ring.first());
        first.is_some_and(|&vertex| own(face.plane.normal, wet.vertices[vertex]))
    });
    faces
        .flat_map(|face| &face.loops)
        .map(|ring| {
            ring.iter()
                .map(|&vertex| point(wet.vertices[vertex]))
                .collect()
        })
        .collect()
}
