//! How the sheets are cut, in words.

use super::said::Said;
use crate::text::Text;
use crate::words::Words;
use brimful_panels::finding::kind::CutKind;
use brimful_panels::name::PanelName;

pub(super) fn said(words: &Words<'_>, kind: &CutKind) -> Said {
    match kind {
        CutKind::SawOnly => Said::new(say!(words, "The shop has a router, but the layout is made for a saw: rectangles with straight cuts. Nesting of true shapes is not covered."))
            .cure(say!(words, "Use the panel outlines (DXF) in the router shop's own layout.")),
        CutKind::NoStock { thickness, panels, sold_as } => {
            let thickness = words.thickness(*thickness);
            let panels = names(words, panels);
            Said::new(say!(words, "There is no {thickness} sheet in the stock for: {panels}.", thickness = &thickness, panels = panels))
                .source(stock(words))
                .cure(match sold_as {
                    Some(sold_as) => say!(words, "The stock has sheet of {sold_as}, which is sold as the same size: is it the same sheet, given in two units? Measure it, and give its thickness alike in both places.", sold_as = words.thickness(*sold_as)),
                    None => say!(words, "Get sheet of {thickness}, or choose a thickness that is there.", thickness = thickness),
                })
                .entry("[[stock.sheet]]")
        }
        CutKind::TooLarge { thickness, panels } => Said::new(say!(words, "Too large for any {thickness} sheet of the stock, and no butt seam clear of corners and openings parts them: {panels}.", thickness = words.thickness(*thickness), panels = names(words, panels)))
            .source(stock(words))
            .cure(say!(words, "Stock a larger sheet, or make the body from smaller faces.")),
        CutKind::CrosscutTooShort(panels) => Said::new(say!(words, "The saw's largest crosscut frees no blank for: {panels}.", panels = names(words, panels)))
            .source(say!(words, "the largest crosscut of the shop"))
            .cure(say!(words, "Cut these with a guide rail, or on a larger saw."))
            .entry("[shop] crosscut"),
        CutKind::StockShort { thickness, proven, panels } => {
            let (thickness, panels) = (words.thickness(*thickness), names(words, panels));
            let says = match proven {
                true => say!(words, "The {thickness} sheet on hand is proven too little. Without a place on it: {panels}.", thickness = thickness, panels = panels),
                false => say!(words, "The {thickness} sheet on hand was not found to be enough. Without a place on it: {panels}.", thickness = thickness, panels = panels),
            };
            Said::new(says)
                .source(stock(words))
                .cure(say!(words, "Get another sheet."))
                .entry("[[stock.sheet]] count")
        }
        CutKind::AboveLeast { thickness, sheets } => {
            let thickness = words.thickness(*thickness);
            Said::new(match sheets {
                1 => say!(words, "The {thickness} layout uses 1 sheet more than the proven least number; that fewer would do is not excluded.", thickness = thickness),
                n => say!(words, "The {thickness} layout uses {n} sheets more than the proven least number; that fewer would do is not excluded.", thickness = thickness, n = *n),
            })
        }
    }
}

fn names(words: &Words<'_>, panels: &[PanelName]) -> Text {
    /// Panels that are named; the others are counted.
    const NAMED: usize = 8;
    let named = Text::join(
        panels.iter().take(NAMED).map(|name| words.panel(name)),
        ", ",
    );
    match panels.len().saturating_sub(NAMED) {
        0 => named,
        1 => say!(words, "{named} and one more", named = named),
        more => say!(words, "{named} and {more} more", named = named, more = more),
    }
}

fn stock(words: &Words<'_>) -> Text {
    say!(words, "the stock of the job")
}
