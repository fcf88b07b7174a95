//! The one table of inputs: every key of a rig file, what it means, how to get it, and its field.
//!
//! Reading a file, changing a value, naming a missing key and suggesting a near miss all go through
//! this table, so they all name an input the same way. Each section of the file has a file here; each of its rows
//! also makes a [`Handle`], by which code names the key: a path is written once.

#[macro_use]
mod rows;
mod axles;
mod boat;
mod brakes;
mod bunks;
mod cases;
mod file;
mod frame;
mod hitch;
mod key;
mod measured;
mod path;
mod plausible;
mod policy;
mod prelude;
mod ramps;
mod shift;
mod suspension;
mod tie_downs;
mod tow;
mod trailer;
mod trip;
mod weighings;
mod winch;

pub use axles::*;
pub use boat::*;
pub use brakes::*;
pub use bunks::*;
pub use cases::*;
pub use file::*;
pub use frame::*;
pub use hitch::*;
pub use key::{At, Key};
pub use measured::*;
pub use path::{INCLUDE, named, nearest, nearest_key, nearest_path};
pub(super) use path::{Node, children, is_list, keys, list_at, node, static_path};
pub use plausible::Implausible;
pub use policy::*;
pub use ramps::*;
pub(super) use rows::List;
pub use rows::{Ends, Extent, Fallback, Going, Handle, Holds, Input, Preset, Role, Sign, Slot, Stored};
pub use shift::*;
pub use suspension::*;
pub use tie_downs::*;
pub use tow::*;
pub use trailer::*;
pub use trip::*;
pub use weighings::*;
pub use winch::*;

use std::collections::{HashMap, HashSet};
use std::sync::LazyLock;

/// Every key of the file, in the order of its sections.
pub static INPUTS: LazyLock<Vec<&'static Input>> = LazyLock::new(|| {
    let sections = [
        file::ROWS,
        trip::ROWS,
        boat::ROWS,
        measured::ROWS,
        weighings::ROWS,
        trailer::ROWS,
        suspension::ROWS,
        axles::ROWS,
        brakes::ROWS,
        frame::ROWS,
        bunks::ROWS,
        winch::ROWS,
        tie_downs::ROWS,
        hitch::ROWS,
        tow::ROWS,
        ramps::ROWS,
        policy::ROWS,
        cases::ROWS,
        shift::ROWS,
    ];
    sections.concat()
});

/// Every list of tables in the file, and of values by id.
static LISTS: LazyLock<Vec<&'static List>> = LazyLock::new(|| {
    let sections = [
        boat::LISTS,
        measured::LISTS,
        weighings::LISTS,
        trailer::LISTS,
        axles::LISTS,
        bunks::LISTS,
        tie_downs::LISTS,
        tow::LISTS,
        ramps::LISTS,
        cases::LISTS,
    ];
    sections.into_iter().flatten().collect()
});

/// The rows by their paths.
static BY_PATH: LazyLock<HashMap<&'static str, &'static Input>> =
    LazyLock::new(|| INPUTS.iter().map(|input| (input.path, *input)).collect());

/// The paths of all tables, the whole file's being empty.
static TABLES: LazyLock<HashSet<&'static str>> = LazyLock::new(|| {
    let tables =
        INPUTS.iter().flat_map(|input| input.path.match_indices('.').map(|(end, _)| &input.path[..end]));
    tables.chain([""]).collect()
});
