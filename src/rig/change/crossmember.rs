//! A rig with one crossmember more.

use super::{Change, Origin, Verb};
use crate::quantity::show::{UnitSystem, written};
use crate::quantity::{Kind, Length, Quantity, Uncertain};
use crate::rig::Rig;
use crate::rig::inputs::{Key, TRAILER_CROSSMEMBERS_STATION};
use crate::rig::problem::{Fault, Problems};
use crate::rig::read::{MOST_ELEMENTS, out_of_bounds};

/// The list that grows.
const LIST: &str = "trailer.crossmembers";

impl Rig {
    /// The rig with a crossmember at a station behind the ball, the last of the list, as if the file had it: but for where it
    /// stands it is like the one of a number, counted from 0, with its ± and with what is proposed of it.
    ///
    /// # Errors
    /// [`Problems`] when another stands there already, when the station is out of its bounds, or when there is no such crossmember.
    ///
    /// ```
    /// use bunkline::Rig;
    /// use bunkline::quantity::{Length, Quantity};
    ///
    /// let rig = Rig::parse("format = 1\n[[trailer.axles]]\n[[trailer.crossmembers]]\nstation = \"15 ft\"\ntop = \"22 in\"")?;
    /// let rig = rig.with_crossmember(0, Length::from_si(5.0))?;
    /// let [first, added] = rig.proposed().trailer.crossmembers[..] else { unreachable!() };
    /// assert_eq!((added.station, added.top), (Some(Length::from_si(5.0)), first.top));
    /// # Ok::<(), bunkline::rig::Problems>(())
    /// ```
    pub fn with_crossmember(&self, like: usize, station: Length) -> Result<Self, Problems> {
        let mut origin = Origin::clone(&self.origin);
        origin.add_crossmember(like, station.si());
        origin.rig(self.changes.clone())
    }
}

impl Origin {
    fn add_crossmember(&mut self, like: usize, station: f64) {
        let members = &mut self.draft.setup.trailer.crossmembers;
        let added = members.len();
        let Some(alike) = members.get(like).copied() else {
            let fault = Fault::NoSuchElement {
                list: LIST.to_string(),
                count: added,
                found: (like + 1).to_string(),
                near: None,
            };
            return self.draft.blame(fault, None);
        };
        members.push(alike);
        if added >= MOST_ELEMENTS {
            let fault = Fault::TooMany { list: LIST, most: MOST_ELEMENTS, found: added + 1 };
            self.draft.blame(fault, None);
        }
        let key = TRAILER_CROSSMEMBERS_STATION.of(added);
        let units = self.draft.setup.units.map_or(UnitSystem::Us, UnitSystem::from);
        let at = Uncertain { value: station, bound: 0.0 };
        let shown = || written(at, Kind::Length, units);
        if let Some(fault) = out_of_bounds(TRAILER_CROSSMEMBERS_STATION.input(), Kind::Length, at, shown) {
            self.draft.blame(fault, None);
        }
        let is_alike = |key: &Key| key.path.starts_with(LIST) && key.at[0] == like;
        let is_shared = |key: &Key| is_alike(key) && key.path != TRAILER_CROSSMEMBERS_STATION.path();
        let same = |key: Key| Key { at: [added, 0], ..key };
        let seen: Vec<Key> = self.draft.seen.iter().copied().filter(is_alike).map(same).collect();
        self.draft.seen.extend(seen);
        let bounds = self.draft.bounds.iter().filter(|(key, _)| is_shared(key));
        let bounds: Vec<(Key, f64)> = bounds.map(|(key, bound)| (same(*key), *bound)).collect();
        self.draft.bounds.extend(bounds);
        let proposals = self.proposals.iter().filter(|change| is_shared(&change.key));
        let proposals: Vec<Change> =
            proposals.map(|change| Change { key: same(change.key), ..change.clone() }).collect();
        self.proposals.extend(proposals);
        Change { key, verb: Verb::Set(station), text: None }.apply(&mut self.draft);
    }
}
