//! `fit`: what fits the space, as one table, then the reason for each body.

use super::findings;
use super::layout::{HEADING, Table, heading, styled, wrapped};
use super::units::Units;
use brimful_job::Capacity;
use brimful_panels::way_in::Entry;
use brimful_tank::fit::Fit;
use brimful_tank::offer::{FullSize, Interference, Offer};
use brimful_text::{Language, Words};
use brimful_units::{Length, Volume};

/// The bodies offered, what each gives up, and ways to more litres.
pub(crate) fn fit(fit: &Fit) -> String {
    let words = &Words::new(&fit.job, Language::English);
    [
        title(fit),
        table(fit, words),
        reasons(fit, words),
        pieces(fit, words),
        gains(fit, words),
        left_out(fit, words),
        findings::all(&fit.findings, &fit.job),
    ]
    .concat()
}

/// The space, and the most that it holds against what is wanted.
fn title(fit: &Fit) -> String {
    let about = &fit.job.about;
    let units = Units(about);
    let volume =
        |solid: &brimful_geom::solid::Solid| units.volume(Volume::from_m3(solid.moments().volume));
    let line = format!(
        "The space is {} clear, {} with its obstacles taken off, {} with all room kept free taken off.",
        volume(&fit.site.room.shell),
        volume(&fit.site.room.free),
        volume(&fit.site.room.allowed)
    );
    let mut text = heading(&about.name).trim_start().to_owned();
    text.push_str(&wrapped("", 0, &line));
    if let Some(most) = most(fit) {
        text.push_str(&wrapped("", 0, &most));
    }
    text
}

/// What is wanted, and whether a body has it.
fn most(fit: &Fit) -> Option<String> {
    let units = Units(&fit.job.about);
    let wanted = fit.job.liquid.wanted;
    let of = wanted.map_or(Capacity::Rated, |wanted| wanted.of);
    let volume = |offer: &Offer| brimful_tank::offer::holds(&offer.figures, of);
    let largest = volume(fit.offers.largest(of)?);
    let in_one = fit.offers.largest_in_one(of).map_or(Volume::ZERO, volume);
    let word = crate::words::capacity(of);
    let shown = fit.offers.largest(of)?.candidate.entry.is_shown();
    let pieces = match (largest > in_one, shown) {
        (false, _) => String::new(),
        (true, true) => format!(", in pieces {}", units.volume(largest)),
        (true, false) => format!(
            ", in pieces {} if each can be got to its place",
            units.volume(largest)
        ),
    };
    let had = format!("{} in one tank{pieces}", units.volume(in_one));
    Some(match wanted {
        Some(wanted) if in_one < wanted.volume => {
            format!(
                "{} {word} cannot be had: the most is {had}.",
                units.volume(wanted.volume)
            )
        }
        Some(wanted) => {
            format!(
                "{} {word} wanted; up to {had} can be had.",
                units.volume(wanted.volume)
            )
        }
        None => format!("Up to {had} {word} can be had."),
    })
}

fn table(fit: &Fit, words: &Words<'_>) -> String {
    let units = Units(&fit.job.about);
    let mut table = Table::new(&[
        "body",
        ">rated",
        ">brim",
        ">usable",
        ">panels",
        ">seams",
        ">sheets",
        ">work",
        ">reach",
        "way in",
        "when full",
    ]);
    for Offer {
        candidate,
        figures,
        full_size,
        ..
    } in &fit.offers.offers
    {
        let sheets = match figures.left_out {
            0 => figures.sheets.to_string(),
            _ => format!("over {}", figures.sheets),
        };
        table.row([
            words.candidate(&candidate.name).into(),
            units.volume(figures.rated),
            units.volume(figures.brim),
            figures
                .usable
                .map_or_else(|| "-".to_owned(), |it| units.volume(it)),
            figures.panels.to_string(),
            units.run(figures.seams),
            sheets,
            units.time(figures.hours),
            units.length(figures.reach),
            glance(&candidate.entry),
            interference(full_size.as_ref()).to_owned(),
        ]);
    }
    let thickness = fit
        .offers
        .offers
        .first()
        .map_or(Length::ZERO, |offer| offer.figures.thickness);
    let note = format!(
        "Sheet of {}; bare, without baffles, ribs and fittings. Work is without sawing. Usable is with the fittings of the job, where they find their panels. Reach: the longest straight way to a seam through the best panel left off last, against {} of arm. When full: with the baffles, ribs and fittings of the job, where they find their places.",
        units.length(thickness),
        units.length(fit.job.shop.reach)
    );
    format!("\n{}{}", table.text(), wrapped("  ", 2, &note))
}

/// The way in, at a glance.
fn glance(entry: &Entry) -> String {
    match entry {
        Entry::Pieces(pieces) if entry.is_shown() => format!("in {} pieces", pieces.len()),
        Entry::Pieces(pieces) => format!("in {} pieces, not shown", pieces.len()),
        Entry::NotFound(_) => "not shown".to_owned(),
        _ => "whole".to_owned(),
    }
}

/// Whether it interferes with what is beside it when it is full and warm, at a glance.
fn interference(full: Option<&FullSize>) -> &'static str {
    match full.map(FullSize::interference) {
        Some(Interference::Clear) => "keeps off",
        Some(Interference::Doubtful) => "may bear",
        Some(Interference::Interferes) => "bears",
        Some(Interference::Unknown) => "not known",
        None => "-",
    }
}

fn reasons(fit: &Fit, words: &Words<'_>) -> String {
    let mut text = heading("Why each");
    for offer in &fit.offers.offers {
        let candidate = &offer.candidate;
        let shape = words.given_up_or_none(&candidate.given_up).capitalised();
        let gives_up = words.gives_up(offer.gives_up.as_ref());
        let mut line = format!("{shape}. Gives up {gives_up}.");
        if let Some(next) = &offer.next_gains {
            line.push_str(&format!(" Next, {}.", words.next_gains(next)));
        }
        let way_in = words.way_in(&candidate.entry.summary());
        line.push_str(&format!(" Way in: {way_in}."));
        if let Some(full) = &offer.full_size {
            line.push_str(&format!(" Full and warm it {}.", words.full_size(full)));
        }
        let name = words.candidate(&candidate.name);
        text.push_str(&styled(HEADING, &format!("  {name}")));
        text.push('\n');
        text.push_str(&wrapped("    ", 4, &line));
    }
    text
}

/// What goes in in pieces, piece by piece.
fn pieces(fit: &Fit, words: &Words<'_>) -> String {
    let Some((name, pieces)) = fit.offers.in_pieces() else {
        return String::new();
    };
    let mut text = heading(&format!(
        "Pieces of `{}`, in the order in which they go in",
        words.candidate(name)
    ));
    for (number, piece) in pieces.iter().enumerate() {
        let lead = format!("  {}  ", number + 1);
        text.push_str(&wrapped(&lead, lead.len(), words.piece(piece).as_str()));
    }
    text
}

fn gains(fit: &Fit, words: &Words<'_>) -> String {
    if fit.gains.is_empty() {
        return String::new();
    }
    let units = Units(&fit.job.about);
    let mut text = heading("Ways to hold more, each by itself and worked out");
    for gain in &fit.gains {
        let lead = format!("  +{}  ", units.volume(gain.gain));
        let line = format!(
            "{} Then {} rated, {} to the brim.",
            words.gain(&gain.change),
            units.volume(gain.rated),
            units.volume(gain.brim)
        );
        text.push_str(&wrapped(&lead, lead.chars().count(), &line));
    }
    text
}

fn left_out(fit: &Fit, words: &Words<'_>) -> String {
    if fit.offers.left_out.is_empty() {
        return String::new();
    }
    let mut text = heading("Looked at and left out");
    for (name, reason) in &fit.offers.left_out {
        text.push_str(&wrapped(
            "  ",
            2,
            &format!(
                "{}: {}.",
                words.candidate(name),
                words.left_out_body(reason)
            ),
        ));
    }
    text
}
