//! Which liquids wet each panel and seam, and what each may take for it.
//!
//! A divider is wetted from both sides, and the worse of its liquids counts for it for all its years, whichever
//! room is full. A seam is wetted by the rooms that both its panels bound. What no liquid wets (a rib, the
//! outside of a dry gap) is near enough to one to be splashed: it takes that of the panels that it is
//! welded to.

use super::tank::Tank;
use crate::limit::{Limits, limits, strictest};
use crate::load::LoadCase;
use brimful_panels::liquid::Holds;
use brimful_panels::table::{NotCovered, Source};
use std::collections::BTreeSet;
use std::sync::Arc;

/// Numbers of rooms.
type Rooms = BTreeSet<usize>;

/// The rooms that wet each panel and seam; never none.
#[derive(Clone, Debug, PartialEq)]
pub struct Wetting {
    panels: Vec<Rooms>,
    seams: Vec<Rooms>,
    /// All that hold something.
    all: Rooms,
}

impl Wetting {
    /// By the rooms of a tank.
    pub fn of(tank: &Tank<'_>) -> Self {
        let rooms = || 0..tank.compartments.len();
        let holds = |room: &usize| tank.compartments[*room].holds != Holds::Nothing;
        let all: Rooms = rooms().filter(holds).collect();
        let all = if all.is_empty() {
            rooms().collect()
        } else {
            all
        };
        let wet_by = |panel: usize| -> Rooms {
            let own = all.iter().copied();
            own.filter(|&room| tank.compartments[room].wets.contains(&panel))
                .collect()
        };
        let wetted: Vec<Rooms> = (0..tank.panels.len()).map(wet_by).collect();
        let beside = |panel: usize| -> Rooms {
            let own = tank.seams.iter().map(|seam| seam.panels);
            let own = own.filter(|pair| pair.contains(&panel)).flatten();
            own.flat_map(|other| wetted[other].iter().copied())
                .collect()
        };
        let or_all = |rooms: Rooms| if rooms.is_empty() { all.clone() } else { rooms };
        let panels = wetted.iter().enumerate().map(|(panel, own)| match own {
            own if own.is_empty() => or_all(beside(panel)),
            own => own.clone(),
        });
        let panels: Vec<Rooms> = panels.collect();
        let seams = tank.seams.iter().map(|seam| {
            let [one, other] = seam.panels.map(|panel| &panels[panel]);
            let both: Rooms = one & other;
            if both.is_empty() { one | other } else { both }
        });
        Self {
            seams: seams.collect(),
            panels,
            all,
        }
    }
}

/// What every part of a tank may take in one load case.
#[derive(Clone, Debug, PartialEq)]
pub struct CaseLimits {
    /// With the liquid of each room.
    by_room: Arc<[Limits]>,
    wetting: Arc<Wetting>,
}

impl CaseLimits {
    /// The limits of a case in a tank.
    ///
    /// # Errors
    /// The table that does not reach so far for some liquid.
    pub fn new(
        tank: &Tank<'_>,
        wetting: &Arc<Wetting>,
        case: &LoadCase,
    ) -> Result<Self, NotCovered> {
        let rooms = tank.compartments.iter();
        let by_room: Result<Vec<Limits>, NotCovered> = rooms
            .map(|room| limits(tank.job, case, &room.contents))
            .collect();
        Ok(Self {
            by_room: by_room?.into(),
            wetting: Arc::clone(wetting),
        })
    }

    /// What a panel may take: that of the worst of the liquids that wet it.
    pub fn of_panel(&self, panel: usize) -> &Limits {
        self.strictest_of(&self.wetting.panels[panel])
    }

    /// What a seam may take: that of the worst of the liquids that wet it.
    pub fn of_seam(&self, seam: usize) -> &Limits {
        self.strictest_of(&self.wetting.seams[seam])
    }

    /// What stands against the liquid of one room alone may take.
    pub fn in_room(&self, room: usize) -> &Limits {
        &self.by_room[room]
    }

    /// That of the worst liquid in the tank; what does not depend on the liquid is the same for all.
    pub fn strictest(&self) -> &Limits {
        self.strictest_of(&self.wetting.all)
    }

    /// Where all of them come from: those of the strictest, and what the others have beside.
    pub fn sources(&self) -> Vec<&Source> {
        let mut sources: Vec<&Source> = self.strictest().sources.iter().collect();
        let rooms = self.wetting.all.iter().map(|&room| &self.by_room[room]);
        for source in rooms.flat_map(|limits| &limits.sources) {
            if !sources.contains(&source) {
                sources.push(source);
            }
        }
        sources
    }

    fn strictest_of(&self, rooms: &Rooms) -> &Limits {
        let limits = rooms.iter().map(|&room| &self.by_room[room]);
        strictest(limits).unwrap_or(&self.by_room[0])
    }
}
