//! What was measured, and whether a body keeps to it, in words.

use super::said::Said;
use crate::text::Text;
use crate::words::Words;
use brimful_job::Twisted;
use brimful_panels::finding::kind::{ScanDefects, SpaceKind, SpacePiece, TankPart};
use brimful_units::UnitSystem;
use brimful_units::{Length, LengthStyle, Volume, show};

pub(super) fn said(words: &Words<'_>, kind: &SpaceKind) -> Said {
    match kind {
        SpaceKind::TakenSquare => Said::new(say!(
            words,
            "No diagonal was measured, so the floor is taken to be square."
        ))
        .cure(say!(words, "Measure from corner to corner."))
        .entry("[space] diagonals")
        .source(say!(
            words,
            "common practice: opposite sides alike do not make a corner square"
        )),
        SpaceKind::Racked { rear, front } => racked(words, *rear, *front),
        SpaceKind::SecondDiagonal {
            measured,
            computed,
            misfit,
        } => second_diagonal(words, *measured, *computed, *misfit),
        SpaceKind::TwistedTop {
            faced,
            by,
            lost,
            between,
        } => twisted_top(words, *faced, *by, [*lost, *between]),
        SpaceKind::UnevenTop { by } => uneven_top(words, *by),
        SpaceKind::TwistedSides {
            x,
            sides,
            lost,
            wanted,
            flat,
        } => twisted_sides(words, *x, sides, faced_with(words, *wanted, *flat, *lost)).entry(
            match (wanted, flat) {
                (Twisted::Flat, true) => TWO_TRIANGLES,
                _ => "",
            },
        ),
        SpaceKind::ScanFlats { file, flats, rough } => scan_flats(words, *flats, *rough)
            .cure(say!(
                words,
                "Measure two sizes by tape and compare them with the picture of the space."
            ))
            .source(scan(words, file)),
        SpaceKind::ScanDefects { file, defects } => scan_defects(words, defects)
            .cure(say!(
                words,
                "Scan again where it is open, or check by tape that nothing stands there."
            ))
            .source(scan(words, file)),
        SpaceKind::ScanDoubtful { file } => Said::new(say!(
            words,
            "Of part of the space the scan does not say whether it is inside; it is taken as outside."
        ))
        .cure(say!(words, "Scan again where it is open."))
        .source(scan(words, file)),
        SpaceKind::ScanScatter { file } => Said::new(say!(
            words,
            "Points of a flat scatter more than the noise that the job states for the scan."
        ))
        .cure(say!(words, "State more noise of the scan, or scan again."))
        .entry("[space] scan_noise")
        .source(scan(words, file)),
        SpaceKind::CutUp { pieces } => Said::new(say!(
            words,
            "{cut_up} Bodies are offered for each.",
            cut_up = words.space_cut_up(pieces)
        ))
        .source(say!(words, "the space less obstacles and the room kept")),
        SpaceKind::OutOfSpace { tank, past } => out_of_space(words, *tank, *past),
        SpaceKind::InKeptFree { tank, zone } => Said::new(say!(
            words,
            "{tank} reaches into `{zone}`, which is kept free.",
            tank = part(words, *tank),
            zone = words.given(zone)
        ))
        .cure(say!(words, "Cut the zone out of the body, or move it."))
        .entry("[[body.cut]], [[space.keep_free]]")
        .source(space_of_job(words)),
        SpaceKind::TooLittleKept { tank } => Said::new(say!(
            words,
            "{tank} fits the space, but not with the clearance and the room above and below that the job asks for.",
            tank = part(words, *tank)
        ))
        .cure(say!(
            words,
            "Make the body smaller, move it, or ask for less clearance."
        ))
        .entry("[body] at, [space] clearance")
        .source(space_of_job(words)),
    }
}

const FLAT: &str = "[space] twisted = \"flat\"";
const TWO_TRIANGLES: &str = "[space] twisted = \"two triangles\"";

impl Words<'_> {
    /// That obstacles cut a space into pieces, each with its size.
    pub(crate) fn space_cut_up(&self, pieces: &[SpacePiece]) -> Text {
        let each = pieces.iter().map(|piece| space_piece(self, piece));
        say!(
            self,
            "The obstacles cut the space into {n} separate pieces: {each}.",
            n = pieces.len(),
            each = Text::join(each, "; ")
        )
    }
}

fn space_piece(words: &Words<'_>, piece: &SpacePiece) -> Text {
    let reach = |low: f64, high: f64| {
        let [low, high] = [low, high].map(|at| words.length(Length::from_m(at)));
        say!(words, "{low} to {high}", low = low, high = high)
    };
    say!(
        words,
        "{volume} at x {x}, y {y}, z {z}",
        volume = words.volume(piece.volume),
        x = reach(piece.low.x, piece.high.x),
        y = reach(piece.low.y, piece.high.y),
        z = reach(piece.low.z, piece.high.z)
    )
}

/// A length that a tape shows: in mm, and in inches where those are read.
fn taped(words: &Words<'_>, length: Length) -> Text {
    let millimetres = Text::verbatim(show::length(length, LengthStyle::Millimetre));
    match words.system {
        UnitSystem::Metric => millimetres,
        UnitSystem::Inch => Text::verbatim(format!("{millimetres} ({})", words.length(length))),
    }
}

/// The same in whole millimetres, as a tape is read.
fn whole(words: &Words<'_>, length: Length) -> Text {
    taped(words, Length::from_m((length.m() * 1e3).round() / 1e3))
}

fn signed(length: Length, text: &Text) -> Text {
    let sign = if length > Length::ZERO { "+" } else { "" };
    Text::verbatim(format!("{sign}{text}"))
}

fn racked(words: &Words<'_>, rear: Length, front: Length) -> Said {
    let [rear, front] = [rear, front].map(|off| signed(off, &whole(words, off)));
    Said::new(say!(
        words,
        "The floor is racked: its far corners stand {rear} (rear) and {front} (front) along x off square. The racked floor is what is kept to.",
        rear = rear,
        front = front
    ))
    .cure(say!(
        words,
        "A body with square corners loses that; among what fits a racked one is offered beside it."
    ))
    .source(say!(words, "sides and diagonal as measured"))
}

fn second_diagonal(words: &Words<'_>, measured: Length, computed: Length, misfit: bool) -> Said {
    let by = measured - computed;
    let says = say!(
        words,
        "The second diagonal was measured as {measured}; sides and first diagonal make it {computed}, {by} apart.",
        measured = taped(words, measured),
        computed = taped(words, computed),
        by = signed(by, &taped(words, by))
    );
    let cure = match misfit {
        true => say!(
            words,
            "One of the six measures is wrong, or the floor is not flat: measure again."
        ),
        false => Text::default(),
    };
    Said::new(says)
        .cure(cure)
        .source(say!(words, "three readings of a tape (common practice)"))
}

fn twisted_top(
    words: &Words<'_>,
    faced: Twisted,
    by: Length,
    [lost, between]: [Volume; 2],
) -> Said {
    let between = words.volume(between);
    let (done, other, entry) = match faced {
        Twisted::Flat => (
            say!(words, "one flat under all four"),
            say!(
                words,
                "Two triangles gain {between} of space for one more panel and a seam.",
                between = between
            ),
            TWO_TRIANGLES,
        ),
        Twisted::TwoTriangles => (
            say!(words, "two triangles with a seam along the lower diagonal"),
            say!(
                words,
                "One flat saves a panel and a seam and loses {between} more.",
                between = between
            ),
            FLAT,
        ),
    };
    Said::new(say!(
        words,
        "The top is twisted: its fourth corner lies {by} off the plane of the other three. It is faced with {done}, which loses {lost} of the space.",
        by = whole(words, by),
        done = done,
        lost = words.volume(lost)
    ))
    .cure(other)
    .entry(entry)
    .source(say!(
        words,
        "corner heights as measured; the lid taken as ruled between them"
    ))
}

fn uneven_top(words: &Words<'_>, by: Length) -> Said {
    Said::new(say!(
        words,
        "The tops of the corners lie in no one plane: up to {by} of height is lost above the flat that stays below all of them.",
        by = whole(words, by)
    ))
    .cure(say!(
        words,
        "Draw the lid by side and front outlines, or by sections, to follow it more closely."
    ))
    .entry("[space] side, front, or [[space.station]]")
    .source(say!(words, "corner heights as measured"))
}

/// How twisted sides are faced.
fn faced_with(words: &Words<'_>, wanted: Twisted, flat: bool, lost: Volume) -> Text {
    let lost = words.volume(lost);
    match (wanted, flat) {
        (Twisted::Flat, true) => say!(
            words,
            "Each is faced with one flat panel, which leaves all of the ruled side outside it over the tank's own height; two triangles that meet in a seam would follow it more closely."
        ),
        (Twisted::Flat, false) => say!(
            words,
            "There are more than two sections, or sections with inside corners, so each is faced with two triangles that meet along the inner diagonal, which loses {lost} of the space.",
            lost = lost
        ),
        (Twisted::TwoTriangles, _) => say!(
            words,
            "Each is faced with two triangles that meet along the inner diagonal, a panel and a seam more for each side, which loses {lost} of the space.",
            lost = lost
        ),
    }
}

fn twisted_sides(words: &Words<'_>, x: [Length; 2], sides: &[(usize, Length)], done: Text) -> Said {
    let each = sides.iter().map(|(corner, off)| {
        say!(
            words,
            "{off} at the side from corner {corner}",
            off = whole(words, *off),
            corner = *corner
        )
    });
    let [from, to] = x.map(|x| words.length(x));
    Said::new(say!(
        words,
        "Sides between x = {from} and x = {to} are twisted: the fourth corner lies off the plane of the other three by {each}. {done} Twisting the sheet cold instead loads its welds for good, and is not covered.",
        from = from,
        to = to,
        each = Text::join(each, ", "),
        done = done
    ))
    .source(say!(
        words,
        "the sections as measured, joined by straight lines; Simpson's rule, exact for ruled sides"
    ))
}

fn scan(words: &Words<'_>, file: &str) -> Text {
    say!(words, "the scan `{file}`", file = words.given(file))
}

fn scan_flats(words: &Words<'_>, flats: usize, rough: f64) -> Said {
    Said::new(say!(
        words,
        "The space is {flats} flats found in the scan, each moved in until its points lie outside; {rough} of the surface is on none.",
        flats = flats,
        rough = words.percent(rough)
    ))
}

fn scan_defects(words: &Words<'_>, defects: &ScanDefects) -> Said {
    let counted = |count: usize, one: Text, several: &dyn Fn() -> Text| match count {
        0 => None,
        1 => Some(one),
        _ => Some(several()),
    };
    let ScanDefects {
        holes,
        flipped,
        non_manifold,
        loose,
    } = *defects;
    let each = [
        counted(holes, say!(words, "1 hole"), &|| {
            say!(words, "{n} holes", n = holes)
        }),
        counted(
            flipped,
            say!(words, "1 triangle that faced the wrong way"),
            &|| say!(words, "{n} triangles that faced the wrong way", n = flipped),
        ),
        counted(
            non_manifold,
            say!(words, "1 edge of more than two triangles"),
            &|| {
                say!(
                    words,
                    "{n} edges of more than two triangles",
                    n = non_manifold
                )
            },
        ),
        counted(loose, say!(words, "1 loose piece left out"), &|| {
            say!(words, "{n} loose pieces left out", n = loose)
        }),
    ];
    Said::new(say!(
        words,
        "The scan has {defects}. What was not seen is taken as it follows from the flats beside it.",
        defects = Text::join(each.into_iter().flatten(), ", ")
    ))
}

fn space_of_job(words: &Words<'_>) -> Text {
    say!(words, "the space and clearance of the job")
}

fn part(words: &Words<'_>, tank: TankPart) -> Text {
    match tank {
        TankPart::Body => say!(words, "The body"),
        TankPart::BodyWithRibs => say!(words, "The body with its ribs"),
    }
}

fn out_of_space(words: &Words<'_>, tank: TankPart, past: Option<Length>) -> Said {
    let says = say!(
        words,
        "{tank} does not fit the space: part of it lies outside, or in an obstacle.",
        tank = part(words, tank)
    );
    let says = match past {
        None => says,
        Some(past) => say!(
            words,
            "{says} It reaches {past} past a side of the space.",
            says = says,
            past = words.length(past)
        ),
    };
    Said::new(says)
        .cure(say!(
            words,
            "Make the body smaller, move it, or cut the obstacle out of it."
        ))
        .entry("[body] at, [[body.cut]]")
        .source(space_of_job(words))
}
