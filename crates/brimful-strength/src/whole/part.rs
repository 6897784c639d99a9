//! What is judged in every load case: panels and seams.

use super::figures::Figures;

/// A panel or a seam, by its number.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Part {
    Panel(usize),
    Seam(usize),
}

impl Part {
    /// All parts that a case has figures of.
    pub fn all(figures: &Figures) -> impl Iterator<Item = Self> {
        let panels = (0..figures.panels.len()).map(Self::Panel);
        let seams = figures.seams.iter().map(|seam| Self::Seam(seam.seam));
        panels.chain(seams)
    }

    pub fn used(self, figures: &Figures) -> f64 {
        match self {
            Self::Panel(number) => figures.panels[number].utilisation,
            Self::Seam(number) => {
                let own = figures.seams.iter().find(|seam| seam.seam == number);
                own.map_or(0.0, |seam| seam.utilisation)
            }
        }
    }
}
