//! Fittings as they stand out of the tank: each a prism over the flat that it covers. What is in the
//! tank of them is no matter here.

use crate::panel::{Panel, Role};
use brimful_geom::frame::Frame;
use brimful_geom::polygon::Outline;
use brimful_geom::solid::Solid;
use brimful_geom::vector::{Point2, Point3, Vec2, Vec3};
use brimful_job::{GoesOn, Job, Opening, OpeningSize};
use brimful_units::{Density, Length, Mass};

/// Sides of the prism about a round flat: its corners stand over it by less than a fiftieth of its size.
const SIDES: usize = 16;

/// What goes into an opening of the job.
#[derive(Clone, Debug)]
pub struct Fitting<'a> {
    /// The opening.
    pub opening: &'a Opening,
    /// Number of its panel.
    pub panel: usize,
    /// On the panel's outside face, z out of the tank.
    frame: Frame,
    /// The flat it covers, in the axes of the frame.
    flat: Outline,
    /// The middle of its hole, in the axes of the frame.
    middle: Point2,
}

/// The fittings of a job in the order of the panels.
pub fn fittings<'a>(job: &'a Job, panels: &[Panel]) -> Vec<Fitting<'a>> {
    let mut all = Vec::new();
    for (number, panel) in panels.iter().enumerate() {
        for hole in &panel.openings {
            if let Some(opening) = hole.opening.and_then(|number| job.openings.get(number)) {
                all.push(Fitting {
                    opening,
                    panel: number,
                    frame: panel.finished.frame,
                    flat: flat(opening, hole.centre),
                    middle: hole.centre,
                });
            }
        }
    }
    all
}

/// The outside of a tank as it is moved: the body with its ribs and those fittings that go on before
/// and of which it is known how far they stand out.
pub fn outside(body: &Solid, panels: &[Panel], fittings: &[Fitting<'_>]) -> Vec<Solid> {
    let ribs = panels.iter().filter(|panel| panel.role == Role::Rib);
    let ribs = ribs.map(|panel| panel.finished.solid());
    let on = fittings.iter().filter(|fitting| fitting.is_on());
    std::iter::once(body.clone())
        .chain(ribs)
        .chain(on.filter_map(Fitting::solid))
        .collect()
}

impl Fitting<'_> {
    /// The middle of its hole on the outside of its panel.
    pub fn at(&self) -> Point3 {
        let Point2 { x, y } = self.middle;
        self.frame.world_from_frame(Point3::new(x, y, 0.0))
    }

    /// What it weighs, and where: halfway out, where it is said how far it stands out.
    pub fn weight(&self) -> Option<(Mass, Point3)> {
        let out = self.opening.stands_out.unwrap_or(Length::ZERO).m() / 2.0;
        Some((self.opening.weighs?, self.at() + self.frame.z * out))
    }

    /// What a cover of sheet of this density weighs, and where; none of another cover.
    pub fn cover_weight(&self, sheet: Density) -> Option<(Mass, Point3)> {
        let thickness = self.opening.cover?.m();
        let mass = Mass::from_kg(self.flat.signed_area().abs() * thickness * sheet.kg_m3());
        Some((mass, self.middle() + self.frame.z * (thickness / 2.0)))
    }

    /// Whether it passes the way in with the tank.
    pub fn is_on(&self) -> bool {
        self.opening.goes_on == GoesOn::Before
    }

    /// The way it stands out, of length one.
    pub fn outward(&self) -> Vec3 {
        self.frame.z
    }

    /// As it stands out of the tank, reaching a little into it; none where that is not known.
    pub fn solid(&self) -> Option<Solid> {
        Some(self.prism(self.opening.stands_out?))
    }

    /// The prism over its flat, `high` over the panel. It reaches into the panel, so that the two
    /// are one solid when put together.
    pub fn prism(&self, high: Length) -> Solid {
        const INTO: Length = Length::from_mm(1.0);
        Solid::prism(&self.flat, &self.frame, -INTO.m(), high.m())
    }

    /// Its middle on the outside face.
    pub fn middle(&self) -> Point3 {
        let middle = self.flat.centroid();
        self.frame
            .world_from_frame(Point3::new(middle.x, middle.y, 0.0))
    }
}

/// The flange where there is one, and no less than the hole.
fn flat(opening: &Opening, centre: Point2) -> Outline {
    let about = |diameter: Length| {
        // Drawn about the circle: of so much more area.
        let half = std::f64::consts::PI / SIDES as f64;
        Outline::round(
            centre,
            diameter.m() / 2.0 * (half.tan() / half).sqrt(),
            SIDES,
        )
    };
    match (opening.size, opening.flange) {
        (OpeningSize::Round { diameter }, None) => about(diameter),
        (OpeningSize::Round { diameter }, Some(flange)) => about(flange.max(diameter)),
        (OpeningSize::Rectangle { width, height }, flange) => {
            let half = |size: Length| size.max(flange.unwrap_or(Length::ZERO)).m() / 2.0;
            let reach = Vec2::new(half(width), half(height));
            let low = centre - reach;
            let corner = |x: f64, y: f64| low + Vec2::new(2.0 * reach.x * x, 2.0 * reach.y * y);
            Outline(vec![
                corner(0.0, 0.0),
                corner(1.0, 0.0),
                corner(1.0, 1.0),
                corner(0.0, 1.0),
            ])
        }
    }
}
