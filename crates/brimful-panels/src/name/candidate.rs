//! What the bodies that fit a space are called: by their shape, so that a name stays the same while the
//! space does.

use std::fmt;

/// What a body that fits a space is called.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct CandidateName {
    /// Its shape.
    pub shape: CandidateShape,
    /// The number of the piece of the space that it is in, from 1; none where the space is in one.
    pub space_piece: Option<usize>,
    /// Whether it is the one that is to be made in pieces.
    pub in_pieces: bool,
    /// Its number among those that share a name, from 1; the first is called by the name alone.
    pub number: usize,
}

/// The shape of a body that fits a space.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum CandidateShape {
    /// All the room that passes the way in.
    EveryFacet,
    /// A box along the space.
    PlainBox,
    /// A box turned against the space.
    TurnedBox,
    /// A letter drawn out.
    Letter(Letter, View),
    /// Five faces without an inside corner.
    Wedge,
    /// Six faces without an inside corner that make no box.
    LeaningBox,
    /// So many faces without an inside corner.
    Convex(usize),
    /// So many faces.
    Faces(usize),
}

/// A letter that a body looks like.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Letter {
    /// One inside corner.
    L,
    /// A notch.
    C,
    /// A stem.
    T,
}

/// From where a body looks like a letter.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum View {
    /// From above.
    Above,
    /// From the front.
    Front,
    /// From the side.
    Side,
}

impl CandidateName {
    /// A body of a shape.
    pub fn of(shape: CandidateShape) -> Self {
        Self {
            shape,
            space_piece: None,
            in_pieces: false,
            number: 1,
        }
    }
}

impl Letter {
    /// The letter.
    pub const fn key(self) -> &'static str {
        match self {
            Self::L => "L",
            Self::C => "C",
            Self::T => "T",
        }
    }
}

impl fmt::Display for CandidateName {
    /// As the job file and the command write it: an id, the same in every language.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.shape.fmt(f)?;
        if let Some(piece) = self.space_piece {
            write!(f, " in piece {piece}")?;
        }
        if self.in_pieces {
            f.write_str(", in pieces")?;
        }
        match self.number {
            1 => Ok(()),
            number => write!(f, " {number}"),
        }
    }
}

impl fmt::Display for CandidateShape {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::EveryFacet => f.write_str("every facet"),
            Self::PlainBox => f.write_str("plain box"),
            Self::TurnedBox => f.write_str("turned box"),
            Self::Letter(letter, View::Above) => f.write_str(letter.key()),
            Self::Letter(letter, View::Front) => write!(f, "{} from the front", letter.key()),
            Self::Letter(letter, View::Side) => write!(f, "{} from the side", letter.key()),
            Self::Wedge => f.write_str("wedge"),
            Self::LeaningBox => f.write_str("leaning box"),
            Self::Convex(faces) => write!(f, "convex, {faces} faces"),
            Self::Faces(faces) => write!(f, "{faces} faces"),
        }
    }
}

impl PartialEq<str> for CandidateName {
    fn eq(&self, key: &str) -> bool {
        let own = self.to_string();
        own == key
    }
}
