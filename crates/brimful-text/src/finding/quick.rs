//! The quick strength check, in words.

use super::said::Said;
use crate::text::Text;
use crate::words::Words;
use brimful_job::FilledTo;
use brimful_panels::finding::kind::{Governs, QuickKind, Uncovered};

pub(super) fn said(words: &Words<'_>, kind: &QuickKind) -> Said {
    match kind {
        QuickKind::CaseNotCovered(of) => {
            let reason = words.not_covered(of);
            Said::new(say!(words, "Not covered by the quick check: {reason}.", reason = reason))
                .source(say!(words, "tables of materials and factors"))
                .cure(words.cure_of_not_covered(of))
        }
        QuickKind::PanelNotCovered(reason) => {
            let reason = uncovered(words, reason);
            Said::new(say!(words, "Not checked yet: {reason}.", reason = reason))
                .source(lines_of_support(words))
                .cure(say!(words, "The whole-tank check, or baffles and facets that leave rectangles."))
        }
        QuickKind::Carried => Said::new(say!(words, "It lies flat on what carries the tank and is not checked for bending. The surface under it must be flat, smooth and whole."))
            .source(say!(words, "common practice")),
        QuickKind::Baffle => Said::new(say!(words, "Not checked yet: the surge on a baffle. Liquid at rest presses on both its sides alike; an event throws it against one."))
            .source(say!(words, "published plate coefficients, for panels with liquid on one side"))
            .cure(say!(words, "The whole-tank check, which throws all that is behind it against each baffle.")),
        QuickKind::TooDeep { case } => Said::new(say!(words, "Not checked yet: with hinged edges it would bulge by more than half its thickness ({case}).", case = words.case(*case)))
            .source(say!(words, "Plate theory without membrane forces ends at half the thickness (DVS 2205-5 and plate theory, from memory)"))
            .cure(say!(words, "Thicker sheet, a baffle nearer, or the whole-tank check, which knows membrane forces.")),
        QuickKind::OverLimit { at, case } => {
            let case = words.case(*case);
            Said::new(match at {
                Governs::Sheet => say!(words, "The stress in the sheet is over what is allowed ({case}).", case = case),
                Governs::Weld => say!(words, "The stress at its welds is over what is allowed ({case}).", case = case),
            })
            .source(say!(words, "Allowable stress by the form of DVS 2205-1 (from memory), factors listed with the span"))
            .cure(say!(words, "Thicker sheet, a baffle nearer, a lower fill, or cooler liquid."))
        }
        QuickKind::Bulge { case } => Said::new(say!(words, "It bulges more than the job allows ({case}).", case = words.case(*case)))
            .source(say!(words, "the bulge that the job allows"))
            .cure(say!(words, "Thicker sheet, or a baffle nearer.")),
        QuickKind::RimOfOpening => Said::new(say!(words, "Not checked yet: the stress at the rim of this opening, which may be three times that of the whole panel, and then is over the allowed."))
            .source(say!(words, "Three times at a small round hole in a pulled plate (G. Kirsch 1898, from memory)"))
            .cure(say!(words, "Thicker sheet, the opening in another panel, or the whole-tank check.")),
        QuickKind::Straps => Said::new(say!(words, "Not checked yet: what straps do to the panels they lie on."))
            .source(lines_of_support(words))
            .cure(say!(words, "The whole-tank check, or stand the tank on a floor or rails.")),
        QuickKind::Openings => Said::new(say!(words, "The stress round openings is not in the plate coefficients: the panels are checked as if whole."))
            .source(say!(words, "published plate coefficients, for whole rectangles"))
            .cure(say!(words, "Keep openings near the edges and corners of a span, and small against it; stiffen a hatch with a ring.")),
        QuickKind::LidLoad => Said::new(say!(words, "Not checked yet: what stands or kneels on the lid."))
            .source(say!(words, "what the job lets stand on the lid"))
            .cure(say!(words, "The whole-tank check.")),
        QuickKind::Assumptions => Said::new(Text::join(words.quick_assumptions(), " "))
            .source(say!(words, "assumptions of the quick check")),
    }
}

fn lines_of_support(words: &Words<'_>) -> Text {
    say!(
        words,
        "published plate coefficients, for rectangles held along straight lines"
    )
}

fn uncovered(words: &Words<'_>, reason: &Uncovered) -> Text {
    match reason {
        Uncovered::StripOfSheet => say!(
            words,
            "it ties or stiffens walls, and the tables know only plates under pressure"
        ),
        Uncovered::Parted => say!(
            words,
            "it is made of pieces joined in line, and a butt seam holds no edge"
        ),
        Uncovered::NotARectangle => say!(words, "its face is not a rectangle"),
        Uncovered::LargeOpening(name) => say!(
            words,
            "its opening `{name}` is larger than half the span",
            name = words.hole(name)
        ),
        Uncovered::OnFeet => say!(
            words,
            "it stands on feet, and the tables know only lines of support"
        ),
        Uncovered::InStraps => say!(
            words,
            "it hangs in straps, and the tables know only straight supports"
        ),
        Uncovered::SlantingRails => say!(words, "its rails run at a slant to its edges"),
        Uncovered::Plate(None, reason) => words.plate(reason),
        Uncovered::Plate(Some(number), reason) => {
            say!(
                words,
                "span {number}: {reason}",
                number = *number,
                reason = words.plate(reason)
            )
        }
    }
}

impl Words<'_> {
    /// What the quick check takes for granted.
    pub fn quick_assumptions(&self) -> Vec<Text> {
        vec![
            say!(
                self,
                "Each span is bent by itself; a real corner lies between the hinged and the clamped edge that are computed."
            ),
            say!(
                self,
                "{filled}; in an event the liquid is taken as still, pressing by the tilted pull alone, without surge.",
                filled = self.filled_to()
            ),
            say!(self, "Live load on the lid is not in it."),
            say!(
                self,
                "An inner panel holds another where its foot runs along at least 70 % of the span and it ties the panel to one that faces it; what the tie passes on where the two are pressed unequally, and the peak of stress at the end of a foot, are not followed."
            ),
            say!(
                self,
                "In an event the bulge that has crept at rest is kept and the quick part added."
            ),
            say!(
                self,
                "The weight of the sheet is taken to act the same way as the liquid."
            ),
        ]
    }

    /// How full the tank is taken to be, in a clause that begins a sentence.
    pub(crate) fn filled_to(&self) -> Text {
        match self.job.checks.filled_to {
            FilledTo::Brim => say!(self, "The tank is brim-full"),
            FilledTo::Rated => say!(
                self,
                "The tank is filled to its air space and never higher, but for the leak test, which is brim-full"
            ),
        }
    }
}
