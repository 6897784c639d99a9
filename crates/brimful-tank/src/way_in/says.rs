//! What the way in of a tank says.

use super::{Entry, Passage, Piece, TankEntry};
use crate::finding::{Finding, Grade, Quantity};
use brimful_geom::vector::Point3;
use brimful_job::About;
use brimful_units::{Length, Volume};

const PLACED: &str = "body, ribs and fittings (each no wider than its flat), moved through the opening less its clearance to their place amid the obstacles, with free ground before the opening; every leg proven";
const ALONE: &str = "body, ribs and fittings (each no wider than its flat), pushed straight through the opening less its clearance";

impl Piece {
    /// Its way in, where its own fittings go, and where it is linked to the others, in sentences.
    pub fn says(&self, about: &About) -> String {
        let length = |metres: f64| Quantity::Length(Length::from_m(metres)).text(about);
        let place = |p: Point3| format!("x {}, y {}, z {}", length(p.x), length(p.y), length(p.z));
        let litres = Volume::from_m3(self.solid.moments().volume);
        let way = match &self.passage {
            None => "passes the opening, but no way behind it to its place was found",
            Some(_) => "gets to its place",
        };
        let joints: String = self
            .joints
            .iter()
            .map(|joint| {
                format!(
                    " To piece {}: a hose for the liquid at {}, one for the air at {}.",
                    joint.to + 1,
                    place(joint.liquid_at),
                    place(joint.air_at)
                )
            })
            .collect();
        format!(
            "{} outside; {way}. Its vent at {}. Its drain at {}.{joints}",
            Quantity::Volume(litres).text(about),
            place(self.vent_at),
            place(self.drain_at),
        )
    }
}

impl TankEntry {
    /// Whether it gets in, and how.
    pub fn finding(&self) -> Finding {
        let finding = match &self.entry {
            Entry::Pieces(_) | Entry::NotFound(_) => self.not_whole(),
            _ if !self.must_come_off.is_empty() => Finding::new(
                Grade::Stop,
                "way in",
                format!(
                    "It goes in, {}, but only with these fittings off: {}.",
                    self.entry.words(),
                    self.must_come_off.join(", ")
                ),
            )
            .cure("Say that they go on after, when the tank is in its place, if hand and spanner get to them there; or move them, or take lower ones."),
            _ => self.goes_in(),
        };
        let side = match self.entry {
            Entry::Straight(_) => ALONE,
            _ => PLACED,
        };
        finding.source(side)
    }

    fn goes_in(&self) -> Finding {
        let margin = self
            .entry
            .passage()
            .map_or(Length::ZERO, |passage: &Passage| passage.margin);
        let how = match self.entry {
            Entry::Straight(_) => format!(
                "It passes the opening {}. Room to turn before and behind it is not worked out.",
                self.entry.words()
            ),
            _ => format!(
                "It goes in whole, {}, clear of everything on the way.",
                self.entry.words()
            ),
        };
        let says = format!("{how}{}", self.fittings_words());
        let found = |grade| {
            Finding::new(grade, "way in", says)
                .figures(Quantity::Length(margin), Quantity::Length(Length::ZERO))
        };
        match self.unstated.is_empty() {
            true => found(Grade::Note),
            // Not shown for the tank as it is to be moved.
            false => found(Grade::Mend).cure("Measure those fittings with what is on them, and say how far they stand out, or that they go on after."),
        }
    }

    fn not_whole(&self) -> Finding {
        let stop = |says: String| Finding::new(Grade::Stop, "way in", says);
        if let Entry::Pieces(_) = self.entry {
            let each = self.pieces.iter().enumerate();
            let each =
                each.map(|(number, piece)| format!("Piece {} {}.", number + 1, piece.words()));
            return stop(format!(
                "It is not shown to go in whole. It could be made {}. {}",
                self.entry.words(),
                each.collect::<Vec<_>>().join(" ")
            ))
            .cure("Make the body slimmer, as those are that fit, or a job of each piece.");
        }
        stop(format!(
            "It is not shown to get in: {}.",
            self.entry.words()
        ))
        .cure("Try it with a dummy of cardboard, or make the body slimmer, as those are that fit.")
    }

    /// What is on it and what is not, in sentences.
    pub fn fittings_words(&self) -> String {
        let said = [
            ("With these fittings on it", &self.on),
            ("These go on when it is in its place", &self.after),
            (
                "These are left out of it, since how far they stand out is not said",
                &self.unstated,
            ),
        ];
        said.iter()
            .filter(|(_, names)| !names.is_empty())
            .map(|(what, names)| format!(" {what}: {}.", names.join(", ")))
            .collect()
    }
}
