//! Marks of panels and seams by their numbers.

use brimful_tank::plan::Plan;

/// The mark of the panel of a number.
pub(super) fn panel(plan: &Plan, panel: usize) -> String {
    let panel = plan.panels.get(panel);
    panel.map(|panel| panel.mark.clone()).unwrap_or_default()
}

/// The mark of the seam of a number.
pub(super) fn seam(plan: &Plan, seam: usize) -> String {
    let seam = plan.seams.get(seam);
    seam.map(|seam| seam.mark.clone()).unwrap_or_default()
}
