//! How it gets to its place, in words.

use super::said::Said;
use crate::text::Text;
use crate::words::Words;
use brimful_panels::finding::kind::{EntrySummary, FittingsOnWay, PieceFittings, WayInKind};

pub(super) fn said(words: &Words<'_>, kind: &WayInKind) -> Said {
    match kind {
        WayInKind::GoesIn { entry, fittings } => goes_in(words, entry, fittings),
        WayInKind::FittingsMustComeOff { entry, fittings } => Said::new(say!(words, "It goes in, {entry}, but only with these fittings off: {names}.", entry = words.way_in(entry), names = words.all_given(fittings)))
            .source(source(words, entry))
            .cure(say!(words, "Say that they go on after, when the tank is in its place, if hand and spanner get to them there; or move them, or take lower ones.")),
        WayInKind::InPieces { pieces, fittings } => Said::new(say!(words, "It is not shown to go in whole. It could be made {pieces}. {each}", pieces = words.pieces(*pieces), each = each_piece(words, fittings)))
            .source(placed(words))
            .cure(say!(words, "Make the body slimmer, as those are that fit, or a job of each piece.")),
        WayInKind::NotFound(why) => Said::new(say!(words, "It is not shown to get in: {why}.", why = words.no_way(why)))
            .source(placed(words))
            .cure(say!(words, "Try it with a dummy of cardboard, or make the body slimmer, as those are that fit.")),
    }
}

fn goes_in(words: &Words<'_>, entry: &EntrySummary, fittings: &FittingsOnWay) -> Said {
    let way = words.way_in(entry);
    let how = match entry {
        EntrySummary::Straight(_) => say!(
            words,
            "It passes the opening {way}. Room to turn before and behind it is not worked out.",
            way = way
        ),
        _ => say!(
            words,
            "It goes in whole, {way}, clear of everything on the way.",
            way = way
        ),
    };
    let fitted = words.fittings_on_way(fittings);
    let parts = [how, fitted].into_iter().filter(|it| !it.is_empty());
    let said = Said::new(Text::join(parts, " ")).source(source(words, entry));
    match fittings.unstated.is_empty() {
        true => said,
        false => said.cure(say!(words, "Measure those fittings with what is on them, and say how far they stand out, or that they go on after.")),
    }
}

fn each_piece(words: &Words<'_>, fittings: &[PieceFittings]) -> Text {
    let each = fittings.iter().enumerate().map(|(number, fittings)| {
        say!(
            words,
            "Piece {number} {fittings}.",
            number = number + 1,
            fittings = words.piece_fittings(fittings)
        )
    });
    Text::join(each, " ")
}

fn source(words: &Words<'_>, entry: &EntrySummary) -> Text {
    match entry {
        EntrySummary::Straight(_) => say!(
            words,
            "body, ribs and fittings (each no wider than its flat), pushed straight through the opening less its clearance"
        ),
        _ => placed(words),
    }
}

fn placed(words: &Words<'_>) -> Text {
    say!(
        words,
        "body, ribs and fittings (each no wider than its flat), moved through the opening less its clearance to their place between the obstacles, with free ground before the opening; every leg proven"
    )
}
