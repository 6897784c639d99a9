//! How a tank gets to its place.

use crate::text::Text;
use crate::words::Words;
use brimful_panels::way_in::{
    Attitude, BodyAxis, EntrySummary, FittingsOnWay, Joint, NoWay, NoWayWhole, Piece,
    PieceFittings, PieceNeed, PiecesSummary,
};
use brimful_units::Volume;

impl Words<'_> {
    /// How a body gets in, in a clause.
    pub fn way_in(&self, entry: &EntrySummary) -> Text {
        match entry {
            EntrySummary::Free => say!(self, "lifted in; no opening is stated"),
            EntrySummary::Straight(attitude) => say!(
                self,
                "straight, {attitude}",
                attitude = self.attitude(*attitude)
            ),
            EntrySummary::Pushed { moves: 1 } => say!(self, "pushed in as it stands, in 1 move"),
            EntrySummary::Pushed { moves } => say!(
                self,
                "pushed in as it stands, in {moves} moves",
                moves = *moves
            ),
            EntrySummary::Turned { moves: 1 } => say!(self, "slid and turned in, in 1 move"),
            EntrySummary::Turned { moves } => {
                say!(self, "slid and turned in, in {moves} moves", moves = *moves)
            }
            EntrySummary::Pieces(pieces) => self.pieces(*pieces),
            EntrySummary::NotFound(why) => self.no_way(why),
        }
    }

    fn attitude(&self, attitude: Attitude) -> Text {
        match attitude {
            Attitude::Square { first, across, up } => say!(
                self,
                "along its {first}, its {across} across the opening and its {up} up",
                first = self.body_axis(first),
                across = self.body_axis(across),
                up = self.body_axis(up)
            ),
            Attitude::Tilted => say!(self, "tilted"),
        }
    }

    fn body_axis(&self, axis: BodyAxis) -> Text {
        match axis {
            BodyAxis::Length => say!(self, "length"),
            BodyAxis::Depth => say!(self, "depth"),
            BodyAxis::Height => say!(self, "height"),
        }
    }

    /// How a body in pieces gets in, in a clause.
    pub(crate) fn pieces(&self, pieces: PiecesSummary) -> Text {
        let n = pieces.count;
        match pieces.lost {
            0 => say!(
                self,
                "in {n} pieces, each a tank of its own; the way of each to its place is shown",
                n = n
            ),
            lost => say!(
                self,
                "in {n} pieces, each a tank of its own; each passes the opening, but for {lost} no way behind it was found",
                n = n,
                lost = lost
            ),
        }
    }

    /// Why no way in was found, in a clause.
    pub(crate) fn no_way(&self, no_way: &NoWay) -> Text {
        let why = match &no_way.why {
            NoWayWhole::NotCombined(fault) => say!(
                self,
                "body, ribs and fittings cannot be put together: {fault}",
                fault = self.boolean_fault(fault)
            ),
            NoWayWhole::NoAttitude { proven: true } => say!(
                self,
                "it passes the opening in no attitude, which is proven"
            ),
            NoWayWhole::NoAttitude { proven: false } => say!(
                self,
                "no attitude in which it passes the opening was found (that there is none is not proven)"
            ),
            NoWayWhole::NotBehind => say!(
                self,
                "it passes the opening, but no way behind it to its place was found (that there is none is not proven)"
            ),
        };
        match no_way.nor_in_pieces {
            true => say!(self, "{why}, nor in up to four pieces", why = why),
            false => why,
        }
    }

    /// A piece of a body: its way in, where its own fittings go, and where it is linked to the others,
    /// in sentences.
    pub fn piece(&self, piece: &Piece) -> Text {
        let volume = self.volume(Volume::from_m3(piece.solid.moments().volume));
        let [vent, drain] = [piece.vent_at, piece.drain_at].map(|at| self.place(at));
        let says = match &piece.passage {
            None => say!(
                self,
                "{volume} outside; passes the opening, but no way behind it to its place was found. Its vent at {vent}. Its drain at {drain}.",
                volume = volume,
                vent = vent,
                drain = drain
            ),
            Some(_) => say!(
                self,
                "{volume} outside; gets to its place. Its vent at {vent}. Its drain at {drain}.",
                volume = volume,
                vent = vent,
                drain = drain
            ),
        };
        let joints = piece.joints.iter().map(|joint| self.hoses(joint));
        Text::join([says].into_iter().chain(joints), " ")
    }

    fn hoses(&self, joint: &Joint) -> Text {
        say!(
            self,
            "To piece {number}: a hose for the liquid at {liquid}, one for the air at {air}.",
            number = joint.to + 1,
            liquid = self.place(joint.liquid_at),
            air = self.place(joint.air_at)
        )
    }

    /// What is on a tank on its way and what is not, in sentences; may be empty.
    pub fn fittings_on_way(&self, fittings: &FittingsOnWay) -> Text {
        let names = |names: &[String]| (!names.is_empty()).then(|| self.all_given(names));
        let on = names(&fittings.on)
            .map(|names| say!(self, "With these fittings on it: {names}.", names = names));
        let after = names(&fittings.after).map(|names| {
            say!(
                self,
                "These go on when it is in its place: {names}.",
                names = names
            )
        });
        let unstated = names(&fittings.unstated).map(|names| {
            say!(
                self,
                "These are left out of it, since how far they stand out is not said: {names}.",
                names = names
            )
        });
        Text::join([on, after, unstated].into_iter().flatten(), " ")
    }

    /// What a piece has of the fittings and what it lacks, in the rest of a sentence about it.
    pub fn piece_fittings(&self, fittings: &PieceFittings) -> Text {
        let has = match fittings.names.is_empty() {
            true => say!(self, "has none of the fittings"),
            false => say!(self, "has {names}", names = self.all_given(&fittings.names)),
        };
        let lacks = fittings.lacks.iter().map(|need| self.piece_need(*need));
        let lacks: Vec<Text> = lacks.collect();
        match lacks.split_last() {
            None => has,
            Some((only, [])) => say!(
                self,
                "{has} and needs {only} of its own",
                has = has,
                only = only
            ),
            Some((last, first)) => say!(
                self,
                "{has} and needs {first} and {last} of its own",
                has = has,
                first = Text::join(first.iter().cloned(), ", "),
                last = last
            ),
        }
    }

    /// What a piece lacks.
    pub fn piece_need(&self, need: PieceNeed) -> Text {
        match need {
            PieceNeed::Vent => say!(self, "a vent"),
            PieceNeed::Drain => say!(self, "a drain"),
            PieceNeed::Hatch => say!(self, "a way in for a hand"),
        }
    }

    /// A list of names that a person gave.
    pub fn all_given(&self, names: &[String]) -> Text {
        Text::join(names.iter().map(|name| self.given(name)), ", ")
    }
}
