//! What a plan says: what to change, and what becomes of the rig.

use crate::fit::{Amount, RigVerdict, Row};
use crate::quantity::{Length, Pressure, Weight};
use crate::rig::{Key, Reach, Rig};
use crate::study::interval::Interval;
use crate::study::place::Part;
use crate::study::sway::Sway;

/// What to change so that fewest checks fail.
#[derive(Debug, Clone, PartialEq)]
pub struct Plan {
    /// What to do, in order; empty where nothing that it may change helps.
    pub steps: Vec<Step>,
    /// What becomes of the rig with all of it.
    pub after: After,
    /// Why something still fails, a row at a time.
    pub conflicts: Vec<Conflict>,
    /// Where the boat is not moved: the keys without which it is not known what a move of it does to what fails.
    pub lacks: Vec<Key>,
    /// Smaller parts with which no more checks fail or are in doubt, where the steps ask for larger ones for the sake of what only
    /// advises; by the place of the step that each stands for.
    pub enough: Vec<(usize, Step)>,
    /// More weight left ashore, with which fewer checks are in doubt, where the steps leave some ashore; with the place of its step.
    pub surest: Option<(usize, Step)>,
    /// Other ways to the same verdict.
    pub alternatives: Vec<Alternative>,
    /// How it then sways beside now, where boat, axles or tongue move and the rest stays.
    pub sway: Option<Sway>,
    /// The rig with all of it.
    pub rig: Rig,
}

/// One thing to do.
#[derive(Debug, Clone, PartialEq)]
pub struct Step {
    /// What it is.
    pub action: Action,
    /// The keys that it sets.
    pub settings: Vec<Setting>,
    /// The ids of the rows that fail without it, and hold with it or fail by less.
    pub cures: Vec<String>,
}

/// What one step does.
#[derive(Debug, Clone, PartialEq)]
pub enum Action {
    /// A part of the rig is moved.
    Move {
        /// What is moved.
        part: Part,
        /// Its shift before, aft or drawn in positive.
        from: Length,
        /// Its shift then.
        to: Length,
        /// Where else it could stand, the other steps done; `None` where it is moved as little as it must be.
        window: Option<Interval>,
        /// Whether it can go there.
        room: Room,
    },
    /// The ball is set to the height that levels the frame.
    Level {
        /// Its height before.
        from: Option<Length>,
        /// Its height then.
        to: Length,
    },
    /// The tires are pumped up, or let down to what their sidewalls say.
    Inflate {
        /// Their pressure before, the least where several differ.
        from: Option<Pressure>,
        /// Their pressure then, by the place of each axle on which it changes.
        to: Vec<(usize, Pressure)>,
        /// Whether these are all axles.
        all: bool,
        /// Whether that is what their sidewalls say; else it is the least that these may say.
        is_on_sidewall: bool,
    },
    /// The winch's strap is cut, or changed for a shorter one.
    Shorten {
        /// Its length before.
        from: Option<Length>,
        /// Its length then.
        to: Length,
    },
    /// Weight is left ashore.
    Ashore {
        /// What is left ashore already.
        from: Weight,
        /// What is left ashore then.
        to: Weight,
    },
    /// Bunks are cut from another board.
    Board {
        /// The one that they are of; `None` where the file gives its size as taped.
        from: Option<String>,
        /// The one that they are to be of.
        to: &'static str,
        /// How much higher the boat then stands; lower where negative, and none where the file gives no keel height.
        raises: Option<Length>,
    },
    /// A crossmember is added under the bunks.
    Crossmember {
        /// Where, behind the ball, as the file states those that are there.
        at: Length,
        /// Where the one stands that it is like.
        like: Length,
    },
    /// Bunks reach farther.
    Ends {
        /// Their forward and their aft end behind the ball.
        from: [Option<Length>; 2],
        /// The same then.
        to: [Option<Length>; 2],
    },
    /// The boat is raised on its bunks, with spacers.
    Raise {
        /// By how much.
        by: Length,
    },
    /// A part is replaced.
    Replace {
        /// Which.
        item: Item,
        /// Each of its figures that changes.
        figures: Vec<Figure>,
        /// Of tires: the load index to ask for, where the file goes by load indices.
        load_index: Option<u32>,
        /// Of tires: whether the new ones are taken to stand at the pressure that the file has for their sidewalls, or as they
        /// do now where that is assumed.
        at_sidewall: Option<bool>,
        /// Of tires: what tires of the size in the file are made for at most, by a published table, where that is less.
        outgrown: Option<Weight>,
    },
}

/// Whether a part can go where a plan wants it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Room {
    /// It can.
    Within,
    /// The travel in the file ends before.
    Beyond(Reach),
    /// The file states no travel.
    Unstated,
}

/// A part that can be bought.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Item {
    /// The axles, with their springs.
    Axles,
    /// The tires, the wheels that they are on, or both.
    Tires,
    /// The trailer's coupler.
    Coupler,
    /// The receiver on the tow vehicle.
    Receiver,
    /// The ball mount.
    BallMount,
    /// The ball.
    Ball,
    /// The drawbar.
    Drawbar,
    /// The tongue jack.
    Jack,
    /// The master cylinder of the brakes.
    MasterCylinder,
}

/// One figure of a part that is replaced.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Figure {
    /// Its key, of the first where several parts are alike.
    pub key: Key,
    /// What it is now, the least where several differ; `None` where the file is silent.
    pub from: Option<Amount>,
    /// What it is then.
    pub to: Amount,
    /// What is needed at least; none of a figure that only comes with the part.
    pub needed: Option<Amount>,
}

/// One key that a step sets.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Setting {
    /// The key.
    pub key: Key,
    /// What the file says now, as it would write it; `None` where nothing stands there.
    pub from: Option<String>,
    /// What it is to say.
    pub to: String,
}

/// What becomes of a rig.
#[derive(Debug, Clone, PartialEq)]
pub struct After {
    /// Its verdict.
    pub verdict: RigVerdict,
    /// The ids of the rows that fail.
    pub fails: Vec<String>,
    /// The ids of those that are unsure.
    pub unsure: Vec<String>,
    /// The rows that hold with little room and are not thin now.
    pub thin: Vec<Row>,
    /// The rows whose verdict is worse than now, or that are clearly farther past their limits than now.
    pub worse: Vec<Row>,
    /// The rows that advise as they do now.
    pub advises: Vec<Row>,
}

/// Why a row fails whatever is done.
#[derive(Debug, Clone, PartialEq)]
pub struct Conflict {
    /// The row as it stands after the plan.
    pub row: Row,
    /// The row that fails first where this one would hold, and how far apart the places are at which they hold.
    pub with: Option<(String, Length)>,
}

/// Another way to the same verdict.
#[derive(Debug, Clone, PartialEq)]
pub struct Alternative {
    /// The places in the plan of the steps that it stands instead of, counted from 0.
    pub instead_of: Vec<usize>,
    /// What to do instead.
    pub steps: Vec<Step>,
    /// What becomes of the rig with it and the other steps of the plan.
    pub after: After,
}

impl Plan {
    /// Every key that it sets, with its text.
    pub fn settings(&self) -> impl Iterator<Item = &Setting> {
        self.steps.iter().flat_map(|step| &step.settings)
    }
}
