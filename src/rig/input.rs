//! The one table of inputs: every key of a rig file, what it means, how to get it, and its field.
//!
//! Reading a file, changing a value, naming a missing key and suggesting a near miss all go through
//! this table, so they all name an input the same way.

use super::setup::{Choice, Part, Reach, Setup};
use crate::quantity::{Angle, Density, Kind, Length, Pressure, Rate, Share, Slope, Volume, Weight};
use std::fmt;

/// Which elements of which lists a key names; unused places are zero.
pub type At = [usize; 2];

/// One key of one rig file: a row of the table and the list elements meant.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct Key {
    /// The row's path, with `*` for a list element.
    pub path: &'static str,
    /// Which elements.
    pub at: At,
}

impl Key {
    /// A key outside any list.
    pub fn new(path: &'static str) -> Self {
        Self { path, at: [0, 0] }
    }

    /// A key inside one list, of the element counted from 0.
    pub fn of(path: &'static str, element: usize) -> Self {
        Self { path, at: [element, 0] }
    }

    /// Its row of the table.
    pub fn input(&self) -> Option<&'static Input> {
        // Nearly every key has its path from the table: then it is the very same text.
        let same = |input: &&Input| std::ptr::eq(input.path, self.path);
        INPUTS.iter().find(same).or_else(|| INPUTS.iter().find(|input| input.path == self.path))
    }
}

/// The path with elements counted from 1, as a change would name it.
impl fmt::Display for Key {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        let mut elements = self.at.iter();
        for (i, segment) in self.path.split('.').enumerate() {
            if i > 0 {
                out.write_str(".")?;
            }
            match segment {
                "*" => write!(out, "{}", elements.next().map_or(0, |at| at + 1))?,
                _ => out.write_str(segment)?,
            }
        }
        Ok(())
    }
}

/// The sign a value may have.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Sign {
    /// Any.
    Any,
    /// Zero or more.
    NotNegative,
    /// More than zero.
    Positive,
}

/// What setting an input beside the file means.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Role {
    /// A proposal, or, where the file lacks the key, the missing part of what was measured.
    Measured,
    /// Always a proposal: the file has it, or its default stands.
    Defaulted,
    /// Always a correction of what was measured.
    Correction,
}

/// One row of the table.
#[derive(Debug)]
pub struct Input {
    /// The path, with `*` for a list element.
    pub path: &'static str,
    /// The sign its value may have.
    pub sign: Sign,
    /// What setting it beside the file means.
    pub role: Role,
    /// What it is.
    pub meaning: &'static str,
    /// How to get it.
    pub how: &'static str,
    slot: for<'a> fn(&'a mut Setup, At) -> Slot<'a>,
}

impl Input {
    /// Its field in a setup. The elements must be there.
    pub(super) fn slot<'a>(&self, setup: &'a mut Setup, at: At) -> Slot<'a> {
        (self.slot)(setup, at)
    }
}

/// A field that a key leads to.
pub enum Slot<'a> {
    /// A length.
    Length(&'a mut Option<Length>),
    /// A weight.
    Weight(&'a mut Option<Weight>),
    /// An angle.
    Angle(&'a mut Option<Angle>),
    /// A share.
    Share(&'a mut Option<Share>),
    /// A pressure.
    Pressure(&'a mut Option<Pressure>),
    /// A volume.
    Volume(&'a mut Option<Volume>),
    /// A density.
    Density(&'a mut Option<Density>),
    /// A spring rate.
    Rate(&'a mut Option<Rate>),
    /// A slope.
    Slope(&'a mut Option<Slope>),
    /// A stress.
    Stress(&'a mut Option<Pressure>),
    /// A section modulus.
    SectionModulus(&'a mut Option<Volume>),
    /// A line of text.
    Text(&'a mut Option<String>),
    /// A short name for cases and changes.
    Id(&'a mut Option<String>),
    /// Yes or no.
    Flag(&'a mut Option<bool>),
    /// A whole number.
    Count(&'a mut Option<u32>),
    /// A plain number by which loads are multiplied.
    Factor(&'a mut Option<f64>),
    /// A word from a list.
    Choice(&'a mut dyn Choice),
    /// Two lengths.
    Reach(&'a mut Option<Reach>),
    /// Patterns of check ids.
    Checks(&'a mut Vec<String>),
    /// Parts of the boat's load, by id.
    Parts(&'a mut Vec<Part>),
}

impl Slot<'_> {
    /// The kind of quantity it holds, if it holds one.
    pub(super) fn kind(&self) -> Option<Kind> {
        Some(match self {
            Self::Length(_) => Kind::Length,
            Self::Weight(_) => Kind::Weight,
            Self::Angle(_) => Kind::Angle,
            Self::Share(_) => Kind::Share,
            Self::Pressure(_) => Kind::Pressure,
            Self::Volume(_) => Kind::Volume,
            Self::Density(_) => Kind::Density,
            Self::Rate(_) => Kind::Rate,
            Self::Slope(_) => Kind::Slope,
            Self::Stress(_) => Kind::Stress,
            Self::SectionModulus(_) => Kind::SectionModulus,
            _ => return None,
        })
    }
}

/// A list of tables in the file.
pub(super) struct List {
    /// Its path.
    pub path: &'static str,
    /// Makes room for so many elements.
    pub grow: fn(&mut Setup, At, usize),
    /// How many there are.
    pub count: fn(&Setup, At) -> usize,
    /// What an element may be called beside its number.
    pub id: fn(&Setup, usize) -> Option<&str>,
}

/// Every list. The tanks' fills of a case follow the boat's tanks.
pub(super) const LISTS: &[List] = &[
    List {
        path: "boat.weights",
        grow: |setup, _, n| setup.boat.weights.resize_with(n, Default::default),
        count: |setup, _| setup.boat.weights.len(),
        id: |setup, i| setup.part_id(Part::Weight(i)),
    },
    List {
        path: "boat.tanks",
        grow: |setup, _, n| setup.boat.tanks.resize_with(n, Default::default),
        count: |setup, _| setup.boat.tanks.len(),
        id: |setup, i| setup.part_id(Part::Tank(i)),
    },
    List {
        path: "trailer.axles",
        grow: |setup, _, n| setup.trailer.axles.resize_with(n, Default::default),
        count: |setup, _| setup.trailer.axles.len(),
        id: |_, _| None,
    },
    List {
        path: "trailer.low_points",
        grow: |setup, _, n| setup.trailer.low_points.resize_with(n, Default::default),
        count: |setup, _| setup.trailer.low_points.len(),
        id: |setup, i| setup.trailer.low_points[i].name.as_deref(),
    },
    List {
        path: "boat.low_points",
        grow: |setup, _, n| setup.boat.low_points.resize_with(n, Default::default),
        count: |setup, _| setup.boat.low_points.len(),
        id: |setup, i| setup.boat.low_points[i].name.as_deref(),
    },
    List {
        path: "tow.low_points",
        grow: |setup, _, n| setup.tow.low_points.resize_with(n, Default::default),
        count: |setup, _| setup.tow.low_points.len(),
        id: |setup, i| setup.tow.low_points[i].name.as_deref(),
    },
    List {
        path: "boat.hull.deadrise",
        grow: |setup, _, n| setup.boat.hull.deadrise_at.resize_with(n, Default::default),
        count: |setup, _| setup.boat.hull.deadrise_at.len(),
        id: |_, _| None,
    },
    List {
        path: "boat.hull.strakes",
        grow: |setup, _, n| setup.boat.hull.strakes.resize_with(n, Default::default),
        count: |setup, _| setup.boat.hull.strakes.len(),
        id: |setup, i| setup.boat.hull.strakes[i].name.as_deref(),
    },
    List {
        path: "trailer.crossmembers",
        grow: |setup, _, n| setup.trailer.crossmembers.resize_with(n, Default::default),
        count: |setup, _| setup.trailer.crossmembers.len(),
        id: |_, _| None,
    },
    List {
        path: "ramps",
        grow: |setup, _, n| setup.ramps.resize_with(n, Default::default),
        count: |setup, _| setup.ramps.len(),
        id: |setup, i| setup.ramps[i].name.as_deref(),
    },
    List {
        path: "ramps.*.profile",
        grow: |setup, at, n| setup.ramps[at[0]].profile.resize_with(n, Default::default),
        count: |setup, at| setup.ramps[at[0]].profile.len(),
        id: |_, _| None,
    },
    List {
        path: "cases",
        grow: |setup, _, n| setup.cases.resize_with(n, Default::default),
        count: |setup, _| setup.cases.len(),
        id: |_, _| None,
    },
    List {
        path: "cases.*.fill",
        grow: |setup, at, n| setup.cases[at[0]].fill.resize(n, None),
        count: |setup, _| setup.boat.tanks.len(),
        id: |setup, i| setup.part_id(Part::Tank(i)),
    },
];

/// What stands at a path.
pub(super) enum Node {
    /// A value.
    Leaf(&'static Input),
    /// A list of tables, or of values by id.
    List(&'static List),
    /// A table.
    Table,
}

/// The list at a path written with `*`, if there is one.
pub(super) fn list_at(path: &str) -> Option<&'static List> {
    LISTS.iter().find(|list| list.path == path)
}

/// What stands at a path written with `*`, if anything; where that is one value or a list of them, the value.
pub(super) fn node(path: &str) -> Option<Node> {
    if let Some(input) = INPUTS.iter().find(|input| input.path == path) {
        return Some(Node::Leaf(input));
    }
    if let Some(list) = list_at(path) {
        return Some(Node::List(list));
    }
    INPUTS.iter().any(|input| below(input.path, path).is_some()).then_some(Node::Table)
}

/// What follows a prefix in a path.
fn below<'a>(path: &'a str, prefix: &str) -> Option<&'a str> {
    match prefix {
        "" => Some(path),
        _ => path.strip_prefix(prefix)?.strip_prefix('.'),
    }
}

/// The keys that may stand in a table, each once.
pub(super) fn children(prefix: &str) -> Vec<&'static str> {
    let mut names = Vec::new();
    for input in INPUTS {
        let name = below(input.path, prefix).and_then(|rest| rest.split('.').next());
        if let Some(name) = name.filter(|name| !names.contains(name)) {
            names.push(name);
        }
    }
    names
}

/// The key nearest to a word: of the table itself, else the path of one elsewhere in the file.
pub(super) fn nearest_key(word: &str, table: &str) -> Option<String> {
    if let Some(name) = nearest(word, children(table)) {
        return Some(name.to_string());
    }
    let prefixes = INPUTS.iter().flat_map(|input| {
        let dots = input.path.match_indices('.').map(|(at, _)| at);
        dots.chain([input.path.len()]).map(|end| &input.path[..end])
    });
    let last = |path: &'static str| path.rsplit('.').next().unwrap_or(path);
    let near = nearest(word, prefixes.clone().map(last).filter(|name| *name != "*"))?;
    prefixes.into_iter().find(|path| last(path) == near).map(|path| path.replace(".*", ""))
}

/// The word nearest to one that is not known, if one is near.
pub fn nearest<'a>(word: &str, known: impl IntoIterator<Item = &'a str>) -> Option<&'a str> {
    let word = word.to_lowercase();
    let letters = word.chars().count();
    // A third of the letters may be wrong: enough for a slip, too few for another word.
    let slips = |name: &str| name.len().max(3) / 3;
    let alike = known.into_iter().filter(|name| {
        // Where the lengths alone differ by more there is nothing to compare.
        name.chars().count().abs_diff(letters) <= slips(name)
    });
    let measured = alike.map(|name| (name, strsim::osa_distance(&word, name)));
    let near = measured.filter(|(name, distance)| *distance <= slips(name));
    near.min_by_key(|(_, distance)| *distance).map(|(name, _)| name)
}

const fn input(
    path: &'static str,
    sign: Sign,
    role: Role,
    meaning: &'static str,
    how: &'static str,
    slot: for<'a> fn(&'a mut Setup, At) -> Slot<'a>,
) -> Input {
    Input { path, sign, role, meaning, how, slot }
}

use Role::{Correction, Defaulted, Measured};
use Sign::{Any, NotNegative, Positive};

const PLACARD: &str = "From the certification label on the trailer's forward left side.";
const SIDEWALL: &str =
    "Moulded on the tire's sidewall: the single figure for a single axle, the dual one for duals.";
const STAMPED: &str = "Stamped or labelled on the part itself.";
const TAPE_X: &str =
    "With the rig level, drop a plumb line from each point to the ground and tape along the ground.";
const TAPE_STATION: &str =
    "Tape along the keel line from the transom forward; aft of the transom is negative.";
const TAPE_KEEL: &str = "Tape up from the keel line.";
const GROUND: &str = "On level ground, rig coupled, frame level, tape up from the ground.";
const PLAIN: &str = "Your choice.";
const DOOR: &str = "From the label in the driver's door frame.";
const MANUAL: &str = "From the tow vehicle's owner's manual, for its engine, axle ratio and cab.";
const SCALE_TOW: &str =
    "Weigh the tow vehicle alone on a truck scale, crew and gear aboard, each axle on its own pad.";

/// Every key of the file, in the order of the format's description.
#[rustfmt::skip]
pub static INPUTS: &[Input] = &[
    input("format", Positive, Defaulted, "the format of the file", "Always 1.", |s, _| Slot::Count(&mut s.format)),
    input("title", Any, Defaulted, "a line that names the rig", PLAIN, |s, _| Slot::Text(&mut s.title)),
    input("units", Any, Defaulted, "units of the printed report", "us or metric.", |s, _| Slot::Choice(&mut s.units)),

    input("boat.name", Any, Defaulted, "the boat's name", PLAIN, |s, _| Slot::Text(&mut s.boat.name)),
    input("boat.length", Positive, Measured, "the boat's length", "Tape over all, transom to bow.", |s, _| Slot::Length(&mut s.boat.length)),
    input("boat.beam", Positive, Measured, "the boat's beam", "Tape across at the widest place.", |s, _| Slot::Length(&mut s.boat.beam)),
    input("boat.bow_eye.station", Positive, Measured, "the bow eye, forward of the transom", TAPE_STATION, |s, _| Slot::Length(&mut s.boat.bow_eye.station)),
    input("boat.bow_eye.height", Any, Measured, "the bow eye, above the keel line", TAPE_KEEL, |s, _| Slot::Length(&mut s.boat.bow_eye.height)),
    input("boat.cg_height", Any, Measured, "centre of gravity of a boat known from scales, above the keel line", "Estimate it: the engine's top is near it in most launches.", |s, _| Slot::Length(&mut s.boat.cg_height)),
    input("boat.cg_side", Any, Defaulted, "centre of gravity of a boat known from scales, to starboard", "Weigh the two sides apart, or leave it on the centreline.", |s, _| Slot::Length(&mut s.boat.cg_side)),

    input("boat.bow_overhang", NotNegative, Measured, "how far the bow reaches ahead of the bow eye", "Tape along the keel line from a plumb line at the bow's tip to the bow eye.", |s, _| Slot::Length(&mut s.boat.bow_overhang)),
    input("boat.hull.deadrise", NotNegative, Measured, "angle of the bottom, one side, above level", "Level across the keel at the bunks; lay a bevel gauge on the bottom. One angle, or a list of { station, deadrise }.", |s, _| Slot::Angle(&mut s.boat.hull.deadrise)),
    input("boat.hull.deadrise.*.station", Any, Measured, "where a deadrise was taken, forward of the transom", TAPE_STATION, |s, at| Slot::Length(&mut s.boat.hull.deadrise_at[at[0]].station)),
    input("boat.hull.deadrise.*.deadrise", NotNegative, Measured, "deadrise there", "Lay a bevel gauge on the bottom.", |s, at| Slot::Angle(&mut s.boat.hull.deadrise_at[at[0]].deadrise)),
    input("boat.hull.chine.half_breadth", Positive, Measured, "the chine from the centreline, over the bunks", "Tape across from chine to chine and halve it.", |s, _| Slot::Length(&mut s.boat.hull.chine.half_breadth)),
    input("boat.hull.chine.height", NotNegative, Measured, "the chine above the keel line, over the bunks", TAPE_KEEL, |s, _| Slot::Length(&mut s.boat.hull.chine.height)),
    input("boat.hull.straight_run", Positive, Measured, "where the bottom begins to rise, forward of the transom", "Hold a long straightedge along the keel from the transom forward: where it parts from the keel.", |s, _| Slot::Length(&mut s.boat.hull.straight_run)),
    input("boat.hull.support_from", NotNegative, Defaulted, "where a bunk may begin to bear, forward of the transom", "Tape from the transom to the front of trim tabs or what else is in the way; the transom itself if nothing is.", |s, _| Slot::Length(&mut s.boat.hull.support_from)),
    input("boat.hull.strakes.*.name", Any, Defaulted, "the strake's name", PLAIN, |s, at| Slot::Text(&mut s.boat.hull.strakes[at[0]].name)),
    input("boat.hull.strakes.*.half_breadth", Positive, Measured, "the strake from the centreline", "Tape across from strake to strake and halve it.", |s, at| Slot::Length(&mut s.boat.hull.strakes[at[0]].half_breadth)),
    input("boat.low_points.*.name", Any, Defaulted, "what the low point is", PLAIN, |s, at| Slot::Text(&mut s.boat.low_points[at[0]].name)),
    input("boat.low_points.*.station", Any, Measured, "the low point, forward of the transom", TAPE_STATION, |s, at| Slot::Length(&mut s.boat.low_points[at[0]].station)),
    input("boat.low_points.*.height", Any, Measured, "the low point, above the keel line", TAPE_KEEL, |s, at| Slot::Length(&mut s.boat.low_points[at[0]].height)),
    input("boat.low_points.*.side", Any, Defaulted, "the low point, to starboard", "Tape from the centreline; to port is negative.", |s, at| Slot::Length(&mut s.boat.low_points[at[0]].side)),

    input("boat.weights.*.id", Any, Defaulted, "a short name for cases and changes", PLAIN, |s, at| Slot::Id(&mut s.boat.weights[at[0]].id)),
    input("boat.weights.*.item", Any, Defaulted, "what it is", PLAIN, |s, at| Slot::Text(&mut s.boat.weights[at[0]].item)),
    input("boat.weights.*.weight", NotNegative, Measured, "weight of something aboard", "From a scale, a maker's sheet or an invoice; or give the scale figures of the whole rig in [measured].", |s, at| Slot::Weight(&mut s.boat.weights[at[0]].weight)),
    input("boat.weights.*.station", Any, Measured, "its centre, forward of the transom", TAPE_STATION, |s, at| Slot::Length(&mut s.boat.weights[at[0]].station)),
    input("boat.weights.*.height", Any, Measured, "its centre, above the keel line", TAPE_KEEL, |s, at| Slot::Length(&mut s.boat.weights[at[0]].height)),
    input("boat.weights.*.side", Any, Defaulted, "its centre, to starboard", "Tape from the centreline; to port is negative.", |s, at| Slot::Length(&mut s.boat.weights[at[0]].side)),

    input("boat.tanks.*.id", Any, Defaulted, "a short name for cases and changes", PLAIN, |s, at| Slot::Id(&mut s.boat.tanks[at[0]].id)),
    input("boat.tanks.*.item", Any, Defaulted, "what it is", PLAIN, |s, at| Slot::Text(&mut s.boat.tanks[at[0]].item)),
    input("boat.tanks.*.fluid", Any, Measured, "what the tank holds", "gasoline, diesel, fresh-water or sea-water; or give boat.tanks density.", |s, at| Slot::Choice(&mut s.boat.tanks[at[0]].fluid)),
    input("boat.tanks.*.density", Positive, Measured, "density of what the tank holds", "From the supplier's sheet, if it is none of the known fluids.", |s, at| Slot::Density(&mut s.boat.tanks[at[0]].density)),
    input("boat.tanks.*.capacity", Positive, Measured, "what the tank holds when full", "From its label, or from filling it once.", |s, at| Slot::Volume(&mut s.boat.tanks[at[0]].capacity)),
    input("boat.tanks.*.fill", NotNegative, Defaulted, "how full the tank is", "From its gauge or a dipstick.", |s, at| Slot::Share(&mut s.boat.tanks[at[0]].fill)),
    input("boat.tanks.*.station", Any, Measured, "the tank's centre, forward of the transom", TAPE_STATION, |s, at| Slot::Length(&mut s.boat.tanks[at[0]].station)),
    input("boat.tanks.*.height", Any, Measured, "the tank's centre, above the keel line", TAPE_KEEL, |s, at| Slot::Length(&mut s.boat.tanks[at[0]].height)),
    input("boat.tanks.*.side", Any, Defaulted, "the tank's centre, to starboard", "Tape from the centreline; to port is negative.", |s, at| Slot::Length(&mut s.boat.tanks[at[0]].side)),

    input("measured.gross_trailer_weight", Positive, Correction, "trailer and boat on a scale", "Weigh the trailer's wheels uncoupled with the jack on the scale too, or wheels and coupler apart, and add.", |s, _| Slot::Weight(&mut s.measured.gross_trailer_weight)),
    input("measured.tongue_weight", NotNegative, Correction, "tongue weight on a scale", "Weigh at the coupler itself, frame level, not at the jack: the jack stands aft of the ball and reads more.", |s, _| Slot::Weight(&mut s.measured.tongue_weight)),

    input("trailer.weight", Positive, Measured, "the trailer's own weight", "Weigh it empty, wheels and coupler; or give trailer.capacity from its label.", |s, _| Slot::Weight(&mut s.trailer.weight)),
    input("trailer.capacity", Positive, Measured, "what the trailer may carry", PLACARD, |s, _| Slot::Weight(&mut s.trailer.capacity)),
    input("trailer.tongue_weight", NotNegative, Measured, "tongue weight of the empty trailer", "Weigh at the coupler, frame level, boat off; or give trailer.cg.", |s, _| Slot::Weight(&mut s.trailer.tongue_weight)),
    input("trailer.cg", Any, Measured, "the empty trailer's centre of gravity behind the ball", "Find where it balances, or give trailer.tongue_weight.", |s, _| Slot::Length(&mut s.trailer.cg)),
    input("trailer.cg_height", Any, Defaulted, "the empty trailer's centre of gravity above ground", "Estimate it: a little above the hubs.", |s, _| Slot::Length(&mut s.trailer.cg_height)),
    input("trailer.gvwr", Positive, Measured, "gross vehicle weight rating", PLACARD, |s, _| Slot::Weight(&mut s.trailer.gvwr)),
    input("trailer.length", Positive, Measured, "ball to the trailer's aft end", TAPE_X, |s, _| Slot::Length(&mut s.trailer.length)),
    input("trailer.width", Positive, Measured, "width over all", "Tape across the fenders.", |s, _| Slot::Length(&mut s.trailer.width)),
    input("trailer.bow_stop", Positive, Measured, "ball to where the bow eye comes home", "Tape along the ground between plumb lines at the ball and the bow eye; or give trailer.transom.", |s, _| Slot::Length(&mut s.trailer.bow_stop)),
    input("trailer.transom", Positive, Measured, "ball to the boat's transom", TAPE_X, |s, _| Slot::Length(&mut s.trailer.transom)),
    input("trailer.bow_stop_height", Any, Measured, "the bow stop above ground", GROUND, |s, _| Slot::Length(&mut s.trailer.bow_stop_height)),
    input("trailer.keel_height", Any, Measured, "the boat's keel above ground, on the bunks", GROUND, |s, _| Slot::Length(&mut s.trailer.keel_height)),
    input("trailer.level_ball_height", Positive, Correction, "ball height at which the frame sits level", "Raise or lower the coupler until a level on the frame rail reads zero, then tape up to the ball's centre.", |s, _| Slot::Length(&mut s.trailer.level_ball_height)),
    input("trailer.level_measured", Any, Correction, "how the rig was loaded when the frame was found level", "loaded or empty.", |s, _| Slot::Choice(&mut s.trailer.level_measured)),
    input("trailer.track", Positive, Measured, "between the wheels' centres, side to side", "Tape from a tire's outer edge on one side to the inner edge on the other.", |s, _| Slot::Length(&mut s.trailer.track)),

    input("trailer.suspension.kind", Any, Correction, "how the axles are sprung", "leaf-equalized, leaf-separate or torsion: look for the rocking links between leaf springs.", |s, _| Slot::Choice(&mut s.trailer.suspension.kind)),
    input("trailer.suspension.deflection_at_rating", Positive, Correction, "deflection of the suspension under the axle's rating", "From the spring or axle maker's sheet.", |s, _| Slot::Length(&mut s.trailer.suspension.deflection_at_rating)),
    input("trailer.suspension.equalizer_travel", NotNegative, Correction, "travel of an equalizer's end, each way", "Tape how far the equalizer's end swings from the middle to its stop.", |s, _| Slot::Length(&mut s.trailer.suspension.equalizer_travel)),
    input("trailer.suspension.bump", Positive, Correction, "deflection at which the suspension bottoms", "From the maker's sheet, or the gap at the bump stop plus the loaded deflection.", |s, _| Slot::Length(&mut s.trailer.suspension.bump)),

    input("trailer.axles.*.station", Positive, Correction, "the axle behind the ball", TAPE_X, |s, at| Slot::Length(&mut s.trailer.axles[at[0]].station)),
    input("trailer.axles.*.rating", Positive, Correction, "gross axle weight rating", "From the trailer's certification label, else from the tag on the axle tube.", |s, at| Slot::Weight(&mut s.trailer.axles[at[0]].rating)),
    input("trailer.axles.*.spring_rating", Positive, Correction, "rating of the axle's springs together", STAMPED, |s, at| Slot::Weight(&mut s.trailer.axles[at[0]].spring_rating)),
    input("trailer.axles.*.weight", Positive, Correction, "weight of axle, wheels and tires", "From the maker's sheet.", |s, at| Slot::Weight(&mut s.trailer.axles[at[0]].weight)),
    input("trailer.axles.*.braked", Any, Correction, "whether the axle has brakes", "Look behind the wheel.", |s, at| Slot::Flag(&mut s.trailer.axles[at[0]].braked)),
    input("trailer.axles.*.tires.size", Any, Correction, "the tires' size", "On the sidewall, like ST225/75R15.", |s, at| Slot::Text(&mut s.trailer.axles[at[0]].tires.size)),
    input("trailer.axles.*.tires.kind", Any, Correction, "what the tires are made for", "trailer (ST), light-truck (LT) or passenger (P), on the sidewall before the size.", |s, at| Slot::Choice(&mut s.trailer.axles[at[0]].tires.kind)),
    input("trailer.axles.*.tires.construction", Any, Correction, "how the tires are built", "radial (R) or bias (D or -), in the size.", |s, at| Slot::Choice(&mut s.trailer.axles[at[0]].tires.construction)),
    input("trailer.axles.*.tires.count", Positive, Correction, "how many tires stand on the axle", "2, or 4 with duals.", |s, at| Slot::Count(&mut s.trailer.axles[at[0]].tires.count)),
    input("trailer.axles.*.tires.rating", Positive, Correction, "what each tire may carry", SIDEWALL, |s, at| Slot::Weight(&mut s.trailer.axles[at[0]].tires.rating)),
    input("trailer.axles.*.tires.pressure", Positive, Correction, "cold inflation pressure", "With a gauge, before driving.", |s, at| Slot::Pressure(&mut s.trailer.axles[at[0]].tires.pressure)),
    input("trailer.axles.*.tires.radius", Positive, Correction, "hub to ground, loaded", "Tape from the hub's centre to level ground; or give a metric tires.size.", |s, at| Slot::Length(&mut s.trailer.axles[at[0]].tires.radius)),
    input("trailer.axles.*.tires.rate", Positive, Correction, "rate of each tire", "From the tire maker's sheet.", |s, at| Slot::Rate(&mut s.trailer.axles[at[0]].tires.rate)),
    input("trailer.axles.*.wheels.rating", Positive, Correction, "what each wheel may carry", "Stamped on the back of the wheel or inside the rim.", |s, at| Slot::Weight(&mut s.trailer.axles[at[0]].wheel_rating)),

    input("trailer.coupler.rating", Positive, Measured, "gross trailer weight the coupler may hold", STAMPED, |s, _| Slot::Weight(&mut s.trailer.coupler.rating)),
    input("trailer.coupler.tongue_rating", Positive, Measured, "tongue weight the coupler may hold", STAMPED, |s, _| Slot::Weight(&mut s.trailer.coupler.tongue_rating)),
    input("trailer.coupler.ball_size", Positive, Measured, "the ball the coupler's socket takes", STAMPED, |s, _| Slot::Length(&mut s.trailer.coupler.ball_size)),
    input("trailer.jack.rating", Positive, Measured, "what the tongue jack may lift", STAMPED, |s, _| Slot::Weight(&mut s.trailer.jack.rating)),
    input("trailer.jack.station", NotNegative, Measured, "the jack behind the ball", TAPE_X, |s, _| Slot::Length(&mut s.trailer.jack.station)),

    input("trailer.low_points.*.name", Any, Defaulted, "what the low point is", PLAIN, |s, at| Slot::Text(&mut s.trailer.low_points[at[0]].name)),
    input("trailer.low_points.*.station", Any, Measured, "the low point behind the ball", TAPE_X, |s, at| Slot::Length(&mut s.trailer.low_points[at[0]].station)),
    input("trailer.low_points.*.height", Any, Measured, "the low point above ground", GROUND, |s, at| Slot::Length(&mut s.trailer.low_points[at[0]].height)),

    input("trailer.rail_half_spacing", Positive, Measured, "centreline to the middle of a frame rail", "Tape between the rails' middles and halve it.", |s, _| Slot::Length(&mut s.trailer.rail_half_spacing)),
    input("trailer.bunks.aft_end", Positive, Measured, "the bunks' aft end behind the ball", TAPE_X, |s, _| Slot::Length(&mut s.trailer.bunks.aft_end)),
    input("trailer.bunks.forward_end", Positive, Measured, "the bunks' forward end behind the ball", TAPE_X, |s, _| Slot::Length(&mut s.trailer.bunks.forward_end)),
    input("trailer.bunks.half_spacing", Positive, Measured, "centreline to each bunk's outer edge", "Tape between the bunks' outer edges and halve it; or give trailer.bunks.port and trailer.bunks.starboard.", |s, _| Slot::Length(&mut s.trailer.bunks.half_spacing)),
    input("trailer.bunks.port", Positive, Measured, "centreline to the port bunk's outer edge", "Tape from a string along the trailer's centreline.", |s, _| Slot::Length(&mut s.trailer.bunks.port)),
    input("trailer.bunks.starboard", Positive, Measured, "centreline to the starboard bunk's outer edge", "Tape from a string along the trailer's centreline.", |s, _| Slot::Length(&mut s.trailer.bunks.starboard)),
    input("trailer.bunks.top", Positive, Measured, "the bunks' outer upper edge above ground", GROUND, |s, _| Slot::Length(&mut s.trailer.bunks.top)),
    input("trailer.bunks.board", Any, Measured, "the board's nominal size", "As it was sold, like 4x10; or give trailer.bunks.width and trailer.bunks.depth as taped.", |s, _| Slot::Text(&mut s.trailer.bunks.board)),
    input("trailer.bunks.width", Positive, Measured, "the board's size across, as it lies", "Tape it.", |s, _| Slot::Length(&mut s.trailer.bunks.width)),
    input("trailer.bunks.depth", Positive, Measured, "the board's size up and down, as it lies, before any bevel", "Tape it.", |s, _| Slot::Length(&mut s.trailer.bunks.depth)),
    input("trailer.bunks.lay", Any, Defaulted, "how the boards lie", "edge: narrow face up, bevelled to the hull; flat: wide face up, tilted to it.", |s, _| Slot::Choice(&mut s.trailer.bunks.lay)),
    input("trailer.bunks.wood", Any, Measured, "the boards' species and grade", "From the stamp on the board; or give trailer.bunks.bending, shear and modulus.", |s, _| Slot::Choice(&mut s.trailer.bunks.wood)),
    input("trailer.bunks.bending", Positive, Measured, "allowable bending stress, all adjustments made", "From the maker's sheet or an engineer; or give trailer.bunks.wood.", |s, _| Slot::Stress(&mut s.trailer.bunks.bending)),
    input("trailer.bunks.shear", Positive, Measured, "allowable shear stress, all adjustments made", "From the maker's sheet or an engineer; or give trailer.bunks.wood.", |s, _| Slot::Stress(&mut s.trailer.bunks.shear)),
    input("trailer.bunks.modulus", Positive, Measured, "modulus of elasticity, all adjustments made", "From the maker's sheet or an engineer; or give trailer.bunks.wood.", |s, _| Slot::Stress(&mut s.trailer.bunks.modulus)),
    input("trailer.bunks.service", Any, Defaulted, "whether the boards stay dry", "wet for a trailer that goes into the water; dry for boards kept under cover and out of it.", |s, _| Slot::Choice(&mut s.trailer.bunks.service)),
    input("trailer.bunks.spacer", NotNegative, Defaulted, "packing between crossmember and bunk", "Tape it.", |s, _| Slot::Length(&mut s.trailer.bunks.spacer)),
    input("trailer.bunks.lift_off", Any, Defaulted, "whether the bunks only lie on their brackets", "true where nothing holds a bunk down; false where bolts do.", |s, _| Slot::Flag(&mut s.trailer.bunks.lift_off)),
    input("trailer.bunks.brackets.rating", Positive, Measured, "side load that one bracket may hold", "From the maker's sheet; or give the bolts' number and rating.", |s, _| Slot::Weight(&mut s.trailer.bunks.brackets.rating)),
    input("trailer.bunks.brackets.bolts", Positive, Measured, "bolts through the bunk at each bracket", "Count them.", |s, _| Slot::Count(&mut s.trailer.bunks.brackets.bolts)),
    input("trailer.bunks.brackets.bolt_rating", Positive, Measured, "side load that one bolt may hold in the wood", "From a lumber connection table for its diameter and the wood.", |s, _| Slot::Weight(&mut s.trailer.bunks.brackets.bolt_rating)),
    input("trailer.bunks.brackets.bolt_spacing", Positive, Measured, "between a bracket's bolts, along the bunk", "Tape it.", |s, _| Slot::Length(&mut s.trailer.bunks.brackets.bolt_spacing)),
    input("trailer.bunks.brackets.bolt_height", Positive, Measured, "the bolts above the bunk's lower edge", "Tape it.", |s, _| Slot::Length(&mut s.trailer.bunks.brackets.bolt_height)),
    input("trailer.crossmembers.*.station", Positive, Measured, "the crossmember behind the ball", TAPE_X, |s, at| Slot::Length(&mut s.trailer.crossmembers[at[0]].station)),
    input("trailer.crossmembers.*.top", Positive, Measured, "its top above ground where the bunk's bracket stands", GROUND, |s, at| Slot::Length(&mut s.trailer.crossmembers[at[0]].top)),
    input("trailer.crossmembers.*.centre", Positive, Measured, "its top above ground under the keel", GROUND, |s, at| Slot::Length(&mut s.trailer.crossmembers[at[0]].centre)),
    input("trailer.crossmembers.*.rating", Positive, Measured, "what it may carry from each bunk", "From the trailer's maker; or give its section_modulus and yield.", |s, at| Slot::Weight(&mut s.trailer.crossmembers[at[0]].rating)),
    input("trailer.crossmembers.*.section_modulus", Positive, Measured, "its section modulus for bending up and down", "From a table of steel sections for its shape, size and wall.", |s, at| Slot::SectionModulus(&mut s.trailer.crossmembers[at[0]].section_modulus)),
    input("trailer.crossmembers.*.yield", Positive, Measured, "yield stress of its metal", "36 ksi for common steel shapes, 46 or 50 ksi for most tube; ask the maker.", |s, at| Slot::Stress(&mut s.trailer.crossmembers[at[0]].yield_stress)),
    input("trailer.fenders.half_breadth", Positive, Measured, "centreline to a fender's inner edge", "Tape between the fenders and halve it.", |s, _| Slot::Length(&mut s.trailer.fenders.half_breadth)),
    input("trailer.fenders.height", Positive, Measured, "the fenders' top above ground", GROUND, |s, _| Slot::Length(&mut s.trailer.fenders.height)),
    input("trailer.fenders.forward_end", Positive, Measured, "the fenders' forward end behind the ball", TAPE_X, |s, _| Slot::Length(&mut s.trailer.fenders.forward_end)),
    input("trailer.fenders.aft_end", Positive, Measured, "the fenders' aft end behind the ball", TAPE_X, |s, _| Slot::Length(&mut s.trailer.fenders.aft_end)),
    input("trailer.bow_bunks.forward_end", Positive, Measured, "the bow bunks' forward end behind the ball", TAPE_X, |s, _| Slot::Length(&mut s.trailer.bow_bunks.forward_end)),
    input("trailer.bow_bunks.aft_end", Positive, Measured, "the bow bunks' aft end behind the ball", TAPE_X, |s, _| Slot::Length(&mut s.trailer.bow_bunks.aft_end)),
    input("trailer.bow_bunks.forward_top", Positive, Measured, "the bow bunks' top above ground at their forward end", GROUND, |s, _| Slot::Length(&mut s.trailer.bow_bunks.forward_top)),
    input("trailer.bow_bunks.aft_top", Positive, Measured, "the bow bunks' top above ground at their aft end", GROUND, |s, _| Slot::Length(&mut s.trailer.bow_bunks.aft_top)),
    input("trailer.guides.height", Positive, Measured, "the middle of a side guide's pad above ground", GROUND, |s, _| Slot::Length(&mut s.trailer.guides.height)),
    input("trailer.guides.size", Positive, Measured, "a side guide's pad from bottom to top", "Tape it.", |s, _| Slot::Length(&mut s.trailer.guides.size)),
    input("trailer.guides.half_spacing", Positive, Measured, "centreline to the face of a side guide's pad", "Tape between the pads and halve it.", |s, _| Slot::Length(&mut s.trailer.guides.half_spacing)),

    input("hitch.receiver.rating", Positive, Measured, "gross trailer weight the receiver may tow", STAMPED, |s, _| Slot::Weight(&mut s.hitch.receiver.rating)),
    input("hitch.receiver.tongue_rating", Positive, Measured, "tongue weight the receiver may hold", STAMPED, |s, _| Slot::Weight(&mut s.hitch.receiver.tongue_rating)),
    input("hitch.receiver.tube", Positive, Measured, "inside size of the receiver's tube", "Tape across the opening.", |s, _| Slot::Length(&mut s.hitch.receiver.tube)),
    input("hitch.ball_mount.rating", Positive, Measured, "gross trailer weight the ball mount may tow", STAMPED, |s, _| Slot::Weight(&mut s.hitch.ball_mount.rating)),
    input("hitch.ball_mount.tongue_rating", Positive, Measured, "tongue weight the ball mount may hold", STAMPED, |s, _| Slot::Weight(&mut s.hitch.ball_mount.tongue_rating)),
    input("hitch.ball_mount.shank", Positive, Measured, "size of the ball mount's shank", "Tape across it.", |s, _| Slot::Length(&mut s.hitch.ball_mount.shank)),
    input("hitch.ball.rating", Positive, Measured, "gross trailer weight the ball may tow", STAMPED, |s, _| Slot::Weight(&mut s.hitch.ball.rating)),
    input("hitch.ball.diameter", Positive, Measured, "the ball's diameter", STAMPED, |s, _| Slot::Length(&mut s.hitch.ball.diameter)),

    input("tow.name", Any, Defaulted, "what the tow vehicle is", PLAIN, |s, _| Slot::Text(&mut s.tow.name)),
    input("tow.front_axle_load", NotNegative, Measured, "its front axle load, trailer off", SCALE_TOW, |s, _| Slot::Weight(&mut s.tow.front_axle_load)),
    input("tow.rear_axle_load", NotNegative, Measured, "its rear axle load, trailer off", SCALE_TOW, |s, _| Slot::Weight(&mut s.tow.rear_axle_load)),
    input("tow.wheelbase", Positive, Measured, "between its axles", "From its manual, or tape from hub to hub.", |s, _| Slot::Length(&mut s.tow.wheelbase)),
    input("tow.ball_overhang", Positive, Measured, "its rear axle back to the ball", TAPE_X, |s, _| Slot::Length(&mut s.tow.ball_overhang)),
    input("tow.ball_height", Positive, Measured, "the ball's centre above ground, coupled", GROUND, |s, _| Slot::Length(&mut s.tow.ball_height)),
    input("tow.gvwr", Positive, Measured, "its gross vehicle weight rating", DOOR, |s, _| Slot::Weight(&mut s.tow.gvwr)),
    input("tow.front_gawr", Positive, Measured, "its front axle weight rating", DOOR, |s, _| Slot::Weight(&mut s.tow.front_gawr)),
    input("tow.rear_gawr", Positive, Measured, "its rear axle weight rating", DOOR, |s, _| Slot::Weight(&mut s.tow.rear_gawr)),
    input("tow.gcwr", Positive, Measured, "its gross combination weight rating", MANUAL, |s, _| Slot::Weight(&mut s.tow.gcwr)),
    input("tow.tow_rating", Positive, Measured, "gross trailer weight it may tow", MANUAL, |s, _| Slot::Weight(&mut s.tow.tow_rating)),
    input("tow.tongue_rating", Positive, Measured, "tongue weight it may hold, by its maker", MANUAL, |s, _| Slot::Weight(&mut s.tow.tongue_rating)),
    input("tow.driven", Any, Measured, "which axle drives", "front, rear or all.", |s, _| Slot::Choice(&mut s.tow.driven)),

    input("tow.cg_height", Positive, Defaulted, "its centre of gravity above ground", "Estimate it: near the door sills' tops in most pickups.", |s, _| Slot::Length(&mut s.tow.cg_height)),
    input("tow.hitch_rate", Positive, Measured, "tongue weight for each inch that the ball sinks", "Measure the ball's height before and after coupling, and divide the tongue weight by the difference.", |s, _| Slot::Rate(&mut s.tow.hitch_rate)),
    input("tow.parking_brake", Any, Defaulted, "which axle the parking brake holds", "rear in nearly every pickup; front or all in a few.", |s, _| Slot::Choice(&mut s.tow.parking_brake)),
    input("tow.body_aft.station", Any, Measured, "the rear of its body or bumper behind its rear axle", TAPE_X, |s, _| Slot::Length(&mut s.tow.body_aft.station)),
    input("tow.body_aft.height", Any, Measured, "the top of that part above ground", GROUND, |s, _| Slot::Length(&mut s.tow.body_aft.height)),
    input("tow.low_points.*.name", Any, Defaulted, "what the low point is", PLAIN, |s, at| Slot::Text(&mut s.tow.low_points[at[0]].name)),
    input("tow.low_points.*.station", Any, Measured, "the low point behind its rear axle", TAPE_X, |s, at| Slot::Length(&mut s.tow.low_points[at[0]].station)),
    input("tow.low_points.*.height", Any, Measured, "the low point above ground", GROUND, |s, at| Slot::Length(&mut s.tow.low_points[at[0]].height)),

    input("ramps.*.name", Any, Defaulted, "the ramp's name", PLAIN, |s, at| Slot::Text(&mut s.ramps[at[0]].name)),
    input("ramps.*.profile.*.length", Positive, Measured, "horizontal length of a run of the ramp", "Tape it along the ground: on grades below 25 % the difference is under 3 %.", |s, at| Slot::Length(&mut s.ramps[at[0]].profile[at[1]].length)),
    input("ramps.*.profile.*.grade", Any, Measured, "grade of a run of the ramp, downhill positive", "Lay a 4 ft level on the concrete and measure the gap under its low end: each half inch is about 1 %.", |s, at| Slot::Slope(&mut s.ramps[at[0]].profile[at[1]].grade)),
    input("ramps.*.ease", NotNegative, Defaulted, "length of the vertical curve at each break", "Lay a straightedge over the break: where it parts from the concrete to either side, the curve begins and ends.", |s, at| Slot::Length(&mut s.ramps[at[0]].ease)),
    input("ramps.*.water_from_top", Positive, Measured, "from the first break to the water's edge", "Tape it at the tide you mean to use.", |s, at| Slot::Length(&mut s.ramps[at[0]].water_from_top)),
    input("ramps.*.water_level", Any, Measured, "the water above the level ground at the top; below is negative", "Level across from the top to a staff at the water's edge.", |s, at| Slot::Length(&mut s.ramps[at[0]].water_level)),
    input("ramps.*.friction", Positive, Defaulted, "friction of the wet ramp under the tow vehicle's tires", "Judge it: clean wet concrete 50 %, weed and slime 30 % or less.", |s, at| Slot::Share(&mut s.ramps[at[0]].friction)),

    input("policy.turn", Positive, Measured, "the sharpest turn on the level, between trailer and tow vehicle", "The angle you mean to turn to when manoeuvring.", |s, _| Slot::Angle(&mut s.policy.turn)),
    input("policy.tongue_share.min", NotNegative, Defaulted, "least tongue weight, as a share of gross", PLAIN, |s, _| Slot::Share(&mut s.policy.tongue_share.min)),
    input("policy.tongue_share.max", Positive, Defaulted, "greatest tongue weight, as a share of gross", PLAIN, |s, _| Slot::Share(&mut s.policy.tongue_share.max)),
    input("policy.preferred_tongue_share", Positive, Defaulted, "tongue weight to aim for, as a share of gross, in the first case", "Your choice inside the band: where the boat may sit in several places, the one nearest to this share is recommended.", |s, _| Slot::Share(&mut s.policy.preferred_tongue_share)),
    input("policy.bunk_pressure.min", NotNegative, Measured, "least peak pressure of a bunk on the hull", PLAIN, |s, _| Slot::Pressure(&mut s.policy.bunk_pressure.min)),
    input("policy.bunk_pressure.max", Positive, Defaulted, "greatest pressure of a bunk on the hull", "From the boat's builder, or leave the default.", |s, _| Slot::Pressure(&mut s.policy.bunk_pressure.max)),
    input("policy.clearance", NotNegative, Defaulted, "least clearance between hull or running gear and trailer", PLAIN, |s, _| Slot::Length(&mut s.policy.clearance)),
    input("policy.side_play", NotNegative, Measured, "how far the boat may lie off the centreline while it is loaded", "Tape the gap between the side guides and the hull, or judge it.", |s, _| Slot::Length(&mut s.policy.side_play)),
    input("policy.loading_trim", NotNegative, Measured, "how far the boat may be out of line with the bunks while it is loaded", "Judge it: a ramp's grade less what the boat floats at.", |s, _| Slot::Angle(&mut s.policy.loading_trim)),
    input("policy.road_factor", Positive, Measured, "how many times their static loads bunks and crossmembers are to bear, for bumps on the road", "Your choice, from 1 to 10; leave it out for static loads.", |s, _| Slot::Factor(&mut s.policy.road_factor)),
    input("policy.thin_margin", NotNegative, Defaulted, "less than this share of a rating left is a thin margin", PLAIN, |s, _| Slot::Share(&mut s.policy.thin_margin)),
    input("policy.counts", Any, Defaulted, "checks that must hold", PLAIN, |s, _| Slot::Checks(&mut s.policy.counts)),
    input("policy.advises", Any, Defaulted, "checks that only advise", PLAIN, |s, _| Slot::Checks(&mut s.policy.advises)),

    input("cases.*.name", Any, Defaulted, "the case's name", PLAIN, |s, at| Slot::Text(&mut s.cases[at[0]].name)),
    input("cases.*.fill.*", NotNegative, Defaulted, "how full a tank is in the case", "From its gauge or a dipstick.", |s, at| Slot::Share(&mut s.cases[at[0]].fill[at[1]])),
    input("cases.*.without", Any, Defaulted, "what is left out in the case, by id", PLAIN, |s, at| Slot::Parts(&mut s.cases[at[0]].without)),

    input("shift.boat", Any, Defaulted, "boat, bow stop and winch post moved aft", PLAIN, |s, _| Slot::Length(&mut s.shift.boat)),
    input("shift.axles", Any, Defaulted, "axles moved aft", PLAIN, |s, _| Slot::Length(&mut s.shift.axles)),
    input("shift.tongue", Any, Defaulted, "tongue drawn in", PLAIN, |s, _| Slot::Length(&mut s.shift.tongue)),
    input("shift.bunks", Any, Defaulted, "bunks moved aft", PLAIN, |s, _| Slot::Length(&mut s.shift.bunks)),
    input("shift.ashore", NotNegative, Defaulted, "weight left ashore, taken out of the boat in every case at its centre of gravity", PLAIN, |s, _| Slot::Weight(&mut s.shift.ashore)),
    input("travel.boat", Any, Defaulted, "how far the boat can go, aft positive", "Tape from where the winch post stands to each end of its slide.", |s, _| Slot::Reach(&mut s.travel.boat)),
    input("travel.axles", Any, Defaulted, "how far the axles can go, aft positive", "Tape along the free length of the frame rail.", |s, _| Slot::Reach(&mut s.travel.axles)),
    input("travel.tongue", Any, Defaulted, "how far the tongue can be drawn in", "Tape the free length of the tongue.", |s, _| Slot::Reach(&mut s.travel.tongue)),
    input("travel.bunks", Any, Defaulted, "how far the bunks can go, aft positive", "Tape along the free length of the frame rail.", |s, _| Slot::Reach(&mut s.travel.bunks)),
];
