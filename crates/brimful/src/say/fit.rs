//! `fit`: what fits the space, as one table, then the reason for each body.

use super::findings;
use super::layout::{HEADING, Label, Table, heading, labelled, line, paragraph};
use brimful_job::Capacity;
use brimful_panels::way_in::Entry;
use brimful_tank::fit::Fit;
use brimful_tank::offer::{FullSize, Interference, Offer};
use brimful_text::{Text, Words, say};
use brimful_units::{Length, Volume};

/// The bodies offered, what each gives up, and ways to more litres.
pub(crate) fn fit(fit: &Fit, words: &Words<'_>) -> String {
    [
        title(fit, words),
        table(fit, words),
        reasons(fit, words),
        pieces(fit, words),
        gains(fit, words),
        left_out(fit, words),
        findings::all(&fit.findings, words),
    ]
    .concat()
}

/// The space, and the most that it holds against what is wanted.
fn title(fit: &Fit, words: &Words<'_>) -> String {
    let volume =
        |solid: &brimful_geom::solid::Solid| words.volume(Volume::from_m3(solid.moments().volume));
    let space = say!(
        words,
        "The space is {shell} clear, {free} with its obstacles taken off, {allowed} with all room kept free taken off.",
        shell = volume(&fit.site.room.shell),
        free = volume(&fit.site.room.free),
        allowed = volume(&fit.site.room.allowed)
    );
    let mut text = line(HEADING, 0, &words.given(&fit.job.about.name));
    text.push_str(&paragraph(0, 0, &space));
    if let Some(most) = most(fit, words) {
        text.push_str(&paragraph(0, 0, &most));
    }
    text
}

/// What is wanted, and whether a body has it.
fn most(fit: &Fit, words: &Words<'_>) -> Option<Text> {
    let wanted = fit.job.liquid.wanted;
    let of = wanted.map_or(Capacity::Rated, |wanted| wanted.of);
    let volume = |offer: &Offer| brimful_tank::offer::holds(&offer.figures, of);
    let largest = fit.offers.largest(of)?;
    let in_one = fit.offers.largest_in_one(of).map_or(Volume::ZERO, volume);
    let tank = words.volume(in_one);
    let pieces = words.volume(volume(largest));
    let had = match (volume(largest) > in_one, largest.candidate.entry.is_shown()) {
        (false, _) => say!(words, "{tank} in one tank", tank = tank),
        (true, true) => say!(
            words,
            "{tank} in one tank, in pieces {pieces}",
            tank = tank,
            pieces = pieces
        ),
        (true, false) => say!(
            words,
            "{tank} in one tank, in pieces {pieces} if each can be got to its place",
            tank = tank,
            pieces = pieces
        ),
    };
    let capacity = words.capacity(of);
    Some(match wanted {
        Some(wanted) if in_one < wanted.volume => say!(
            words,
            "{wanted} {capacity} is not possible: the most is {had}.",
            wanted = words.volume(wanted.volume),
            capacity = capacity,
            had = had
        ),
        Some(wanted) => say!(
            words,
            "{wanted} {capacity} wanted; up to {had} is possible.",
            wanted = words.volume(wanted.volume),
            capacity = capacity,
            had = had
        ),
        None => say!(
            words,
            "Up to {had} {capacity} is possible.",
            had = had,
            capacity = capacity
        ),
    })
}

fn table(fit: &Fit, words: &Words<'_>) -> String {
    let mut table = Table::new(
        words,
        &[
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
        ],
    );
    for Offer {
        candidate,
        figures,
        full_size,
        ..
    } in &fit.offers.offers
    {
        let sheets = match figures.left_out {
            0 => figures.sheets.into(),
            _ => say!(words, "over {sheets}", sheets = figures.sheets),
        };
        table.row([
            words.candidate(&candidate.name),
            words.volume(figures.rated),
            words.volume(figures.brim),
            figures
                .usable
                .map_or_else(|| words.symbol("-"), |it| words.volume(it)),
            figures.panels.into(),
            words.long_length(figures.seams),
            sheets,
            words.working_time(figures.hours),
            words.length(figures.reach),
            glance(&candidate.entry, words),
            interference(full_size.as_ref(), words),
        ]);
    }
    let first = fit.offers.offers.first();
    let thickness = first.map_or(Length::ZERO, |offer| offer.figures.thickness);
    let note = say!(
        words,
        "Sheet of {thickness}; bare, without baffles, ribs and fittings. Work is from sawing to the leak test. Usable is with the fittings of the job, where they find their panels. Reach: the longest straight way to a seam through the best panel left off last, against {reach} of arm. When full: with the baffles, ribs and fittings of the job, where they find their places.",
        thickness = words.thickness(thickness),
        reach = words.length(fit.job.shop.reach)
    );
    format!("\n{}{}", table.text(), paragraph(2, 2, &note))
}

/// The way in, at a glance.
fn glance(entry: &Entry, words: &Words<'_>) -> Text {
    match entry {
        Entry::Pieces(pieces) if entry.is_shown() => {
            say!(words, "in {n} pieces", n = pieces.len())
        }
        Entry::Pieces(pieces) => say!(words, "in {n} pieces, not shown", n = pieces.len()),
        Entry::NotFound(_) => say!(words, "not shown"),
        _ => say!(words, "whole"),
    }
}

/// Whether it interferes with what is beside it when it is full and warm, at a glance.
fn interference(full: Option<&FullSize>, words: &Words<'_>) -> Text {
    match full.map(FullSize::interference) {
        Some(Interference::Clear) => say!(words, "keeps off"),
        Some(Interference::Doubtful) => say!(words, "may bear"),
        Some(Interference::Interferes) => say!(words, "bears"),
        Some(Interference::Unknown) => words.not_known(),
        None => words.symbol("-"),
    }
}

fn reasons(fit: &Fit, words: &Words<'_>) -> String {
    let mut text = heading(&say!(words, "Why each"));
    for offer in &fit.offers.offers {
        let name = words.candidate(&offer.candidate.name);
        text.push_str(&line(HEADING, 2, &name));
        text.push_str(&paragraph(4, 4, &reason(offer, words)));
    }
    text
}

fn reason(offer: &Offer, words: &Words<'_>) -> Text {
    let candidate = &offer.candidate;
    let shape = words.given_up_or_none(&candidate.given_up).capitalised();
    let gives_up = words.gives_up(offer.gives_up.as_ref());
    let next = offer.next_gains.as_ref();
    let full = offer.full_size.as_ref();
    let sentences = [
        Some(say!(words, "{shape}.", shape = shape)),
        Some(say!(words, "Gives up {trade}.", trade = gives_up)),
        next.map(|next| say!(words, "Next, {gain}.", gain = words.next_gains(next))),
        Some(say!(
            words,
            "Way in: {way}.",
            way = words.way_in(&candidate.entry.summary())
        )),
        full.map(|full| {
            say!(
                words,
                "Full and warm it {takes}.",
                takes = words.full_size(full)
            )
        }),
    ];
    Text::join(sentences.into_iter().flatten(), " ")
}

/// What goes in in pieces, piece by piece.
fn pieces(fit: &Fit, words: &Words<'_>) -> String {
    let Some((name, pieces)) = fit.offers.in_pieces() else {
        return String::new();
    };
    let mut text = heading(&say!(
        words,
        "Pieces of `{body}`, in the order in which they go in",
        body = words.candidate(name)
    ));
    for (number, piece) in pieces.iter().enumerate() {
        let number = Text::from(number + 1);
        let label = Label::ending(3, &number);
        text.push_str(&labelled(label, 5, &words.piece(piece)));
    }
    text
}

fn gains(fit: &Fit, words: &Words<'_>) -> String {
    if fit.gains.is_empty() {
        return String::new();
    }
    let mut text = heading(&say!(
        words,
        "Ways to hold more, each by itself and worked out"
    ));
    for gain in &fit.gains {
        let more = say!(words, "+{volume}", volume = words.volume(gain.gain));
        let label = Label::new(2, &more);
        let line = say!(
            words,
            "{change} Then {rated} rated, {brim} to the brim.",
            change = words.gain(&gain.change),
            rated = words.volume(gain.rated),
            brim = words.volume(gain.brim)
        );
        text.push_str(&labelled(label, label.end() + 2, &line));
    }
    text
}

fn left_out(fit: &Fit, words: &Words<'_>) -> String {
    if fit.offers.left_out.is_empty() {
        return String::new();
    }
    let mut text = heading(&say!(words, "Looked at and left out"));
    for (name, reason) in &fit.offers.left_out {
        let line = say!(
            words,
            "{body}: {why}.",
            body = words.candidate(name),
            why = words.left_out_body(reason)
        );
        text.push_str(&paragraph(2, 2, &line));
    }
    text
}
