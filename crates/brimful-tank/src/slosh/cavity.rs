//! A room with what stands in it, as the engine takes it.

use brimful_geom::frame::Frame;
use brimful_geom::plate::{Cutout, Plate as Sheet, PlateFace};
use brimful_geom::polygon::Outline;
use brimful_geom::vector::Point2;
use brimful_panels::liquid::Compartment;
use brimful_panels::panel::{Panel, Role};
use brimful_panels::seam::Seam;
use brimful_slosh::{Cavity, Hole, Plate};

/// How far past a wall's face a plate reaches, m: so that rounding leaves no slot between, and far less than any sheet.
const INTO_THE_WALL: f64 = 0.001;

/// A room, and which panel each of its plates is.
pub(super) struct Room {
    pub cavity: Cavity,
    pub panels: Vec<usize>,
}

impl Room {
    /// The room of a compartment with the middle planes of its inner panels.
    pub fn of(compartment: &Compartment, panels: &[Panel], seams: &[Seam]) -> Self {
        let stands = |number: &usize| {
            let role = panels[*number].role;
            role.is_inner() && role != Role::Divider
        };
        let inner: Vec<usize> = compartment.wets.iter().copied().filter(stands).collect();
        let plates = inner.iter().map(|&number| plate(number, panels, seams));
        Self {
            cavity: Cavity {
                solid: compartment.room.clone(),
                plates: plates.collect(),
            },
            panels: inner,
        }
    }

    /// The same without some of its panels.
    pub fn without(&self, left_out: &[usize]) -> Cavity {
        let kept = self.panels.iter().zip(&self.cavity.plates);
        let kept = kept.filter(|(panel, _)| !left_out.contains(panel));
        Cavity {
            solid: self.cavity.solid.clone(),
            plates: kept.map(|(_, plate)| plate.clone()).collect(),
        }
    }
}

/// The middle plane of a panel, which reaches the walls that it is welded to and the middle planes of other inner panels.
fn plate(number: usize, panels: &[Panel], seams: &[Seam]) -> Plate {
    let panel = &panels[number];
    let thickness = panel.finished.thickness;
    let widened = panel.finished.with_sides_moved(|side| {
        let Some(seam) = side.mark.and_then(|seam| seams.get(seam)) else {
            return 0.0;
        };
        let [a, b] = seam.panels;
        let other = &panels[if a == number { b } else { a }];
        let reach = match other.role.is_inner() {
            true => other.thickness.m() / 2.0,
            false => INTO_THE_WALL,
        };
        (seam.gap.m() + reach) / side.bevel(thickness).cos()
    });
    let mut outlines = in_the_middle(&widened).into_iter();
    let outline = outlines.next().unwrap_or_else(|| Outline(Vec::new()));
    let around = outlines.map(|ring| Hole::Outline(ring.counter_clockwise()));
    let cut = panel.finished.cutouts.iter().map(|cutout| match cutout {
        Cutout::Round { centre, radius } => Hole::Round {
            centre: *centre,
            radius: *radius,
        },
        Cutout::Straight(_) => Hole::Outline(cutout.outline()),
    });
    let frame = panel.finished.frame;
    Plate {
        frame: Frame {
            origin: frame.origin - frame.z * (thickness / 2.0),
            ..frame
        },
        outline,
        holes: around.chain(cut).collect(),
    }
}

/// The outlines of a sheet halfway between its faces.
fn in_the_middle(sheet: &Sheet) -> Vec<Outline> {
    let [outside, inside] =
        [PlateFace::Outside, PlateFace::Inside].map(|face| sheet.outlines(face));
    let halfway = |(a, b): (&Point2, &Point2)| a.midpoint(*b);
    outside
        .iter()
        .zip(&inside)
        .map(|(a, b)| Outline(a.0.iter().zip(&b.0).map(halfway).collect()))
        .collect()
}
