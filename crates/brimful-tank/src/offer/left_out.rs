//! Why a body that was looked at is not offered.

use brimful_panels::finding::kind::NotOffered;
use brimful_panels::name::CandidateName;
use brimful_panels::panels::NotLaidOut;

/// Why a body that was looked at is not offered.
#[derive(Clone, Debug, PartialEq)]
pub enum LeftOut {
    /// For a reason of its own.
    NotOffered(NotOffered),
    /// Its panels cannot be laid out.
    NotLaidOut(NotLaidOut),
    /// Another is no worse in anything.
    Beaten(CandidateName),
}

impl LeftOut {
    /// The reason of its own, without what is wrong with its panels; none where another beats it.
    pub fn in_short(&self) -> Option<NotOffered> {
        match self {
            Self::NotOffered(why) => Some(why.clone()),
            Self::NotLaidOut(_) => Some(NotOffered::PanelsNotLaidOut),
            Self::Beaten(_) => None,
        }
    }
}

impl From<NotOffered> for LeftOut {
    fn from(why: NotOffered) -> Self {
        Self::NotOffered(why)
    }
}

impl From<NotLaidOut> for LeftOut {
    fn from(why: NotLaidOut) -> Self {
        Self::NotLaidOut(why)
    }
}
