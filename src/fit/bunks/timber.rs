//! The bunks' board, what its wood may bear, and what stands under it.

use super::hull::{deadrise, steepest};
use super::layout::bunks;
use crate::fit::known::{Known, Missing, both, known, need};
use crate::mechanics::bunks::wood::{self, Adjusted, Allowed, Board, LoadDuration, Lumber, Use};
use crate::mechanics::bunks::{Bevelled, drop};
use crate::quantity::{Length, Pressure, Quantity};
use crate::rig::inputs::{
    TRAILER_BUNKS_BEARING, TRAILER_BUNKS_BENDING, TRAILER_BUNKS_BOARD, TRAILER_BUNKS_DEPTH,
    TRAILER_BUNKS_MODULUS, TRAILER_BUNKS_SHEAR, TRAILER_BUNKS_TOP, TRAILER_BUNKS_WIDTH, TRAILER_BUNKS_WOOD,
    TRAILER_CROSSMEMBERS_TOP,
};
use crate::rig::{Bunks, Lay, Service, Setup, Wood, nominal_size};

/// What a board may be stressed to.
#[derive(Debug, Clone, PartialEq)]
pub struct Allowable {
    /// The stress, or the modulus of elasticity.
    pub value: Pressure,
    /// How it follows from the grade's design value, or `None` where the file states it.
    pub adjusted: Option<Adjusted>,
}

/// What the bunks' wood may bear.
#[derive(Debug, Clone, PartialEq)]
pub struct Timber {
    /// In bending.
    pub bending: Known<Allowable>,
    /// In shear along the grain.
    pub shear: Known<Allowable>,
    /// Across the grain, over a bracket.
    pub bearing: Known<Allowable>,
    /// Its modulus of elasticity.
    pub elasticity: Known<Allowable>,
}

/// The bunks' board across and up and down, as it lies, before any bevel.
///
/// # Errors
/// The keys that are missing.
pub fn board_size(setup: &Setup) -> Known<(Length, Length)> {
    both(breadth(setup), depth(setup))
}

/// The bunks' board across, as it lies.
pub(super) fn breadth(setup: &Setup) -> Known<Length> {
    let bunks = bunks(setup);
    match nominal(bunks)? {
        Some((breadth, _)) => Ok(breadth),
        None if bunks.depth.is_some() => known(bunks.width, TRAILER_BUNKS_WIDTH.key()),
        None => known(bunks.width, TRAILER_BUNKS_BOARD.key()),
    }
}

/// The bunks' board up and down, as it lies.
fn depth(setup: &Setup) -> Known<Length> {
    let bunks = bunks(setup);
    match nominal(bunks)? {
        Some((_, depth)) => Ok(depth),
        None if bunks.width.is_some() => known(bunks.depth, TRAILER_BUNKS_DEPTH.key()),
        None => known(bunks.depth, TRAILER_BUNKS_BOARD.key()),
    }
}

/// A board of nominal size across and up and down, as it lies, or `None` where the file states no such size.
fn nominal(bunks: &Bunks) -> Known<Option<(Length, Length)>> {
    let Some(board) = bunks.board.as_deref() else { return Ok(None) };
    // A file with another size does not read.
    let board = nominal_size(board).and_then(|[one, other]| Board::nominal(one, other));
    let board = known(board, TRAILER_BUNKS_BOARD.key())?;
    Ok(Some(match bunks.lay {
        Some(Lay::Flat) => (board.width, board.thickness),
        _ => (board.thickness, board.width),
    }))
}

/// How the bunks' board lies.
pub(super) fn lay(setup: &Setup) -> wood::Lay {
    match bunks(setup).lay {
        Some(Lay::Flat) => wood::Lay::Flat,
        _ => wood::Lay::OnEdge,
    }
}

/// The bunks' board cut to the hull, or `None` where the bevel would cut away its whole inner edge.
///
/// # Errors
/// The keys that are missing.
pub fn board(setup: &Setup) -> Known<Option<Bevelled>> {
    let ((breadth, depth), (deadrise, steepest)) =
        both(board_size(setup), both(deadrise(setup), steepest(setup)))?;
    Ok(Bevelled::cut(breadth, depth, lay(setup), deadrise, steepest))
}

/// How much of the board's depth the bevel leaves at its inner edge; negative where it would take more than there is.
pub(super) fn wood_left(setup: &Setup) -> Known<Length> {
    let ((breadth, depth), deadrise) = both(board_size(setup), deadrise(setup))?;
    Ok(match lay(setup) {
        wood::Lay::OnEdge => depth - drop(breadth, deadrise, lay(setup)),
        wood::Lay::Flat => depth,
    })
}

pub(super) fn cut(setup: &Setup) -> Known<Bevelled> {
    board(setup)?.ok_or_else(Missing::default)
}

/// What the wood may bear.
pub fn timber(setup: &Setup) -> Timber {
    match bunks(setup).wood {
        Some(wood) => graded_timber(setup, wood),
        None => stated_timber(bunks(setup)),
    }
}

fn graded_timber(setup: &Setup, wood: Wood) -> Timber {
    match by_the_tables(setup, wood) {
        Ok(values) => {
            let allowable =
                |adjusted: Adjusted| Ok(Allowable { value: adjusted.value(), adjusted: Some(adjusted) });
            Timber {
                bending: allowable(values.bending),
                shear: allowable(values.shear),
                bearing: allowable(values.bearing),
                elasticity: allowable(values.elasticity),
            }
        }
        Err(missing) => {
            let none = || Err(missing.clone());
            Timber { bending: none(), shear: none(), bearing: none(), elasticity: none() }
        }
    }
}

fn by_the_tables(setup: &Setup, wood: Wood) -> Known<Allowed> {
    let lumber = match wood {
        Wood::DouglasFirLarch2 => Lumber::DouglasFirLarch2,
        Wood::SouthernPine2 => Lumber::SouthernPine2,
        Wood::WesternCedar2 => Lumber::WesternCedar2,
    };
    let service = match bunks(setup).service {
        Some(Service::Dry) => wood::Service::Dry,
        _ => wood::Service::Wet,
    };
    let (breadth, depth) = both(breadth(setup), depth(setup))?;
    let board = Board { thickness: breadth.min(depth), width: breadth.max(depth) };
    let how = Use { duration: LoadDuration::Permanent, service };
    let values = lumber.design_values(board).and_then(|values| wood::allowed(values, board, how));
    // A caution says that the tables do not cover the size.
    values.map_err(|_| Missing::default())
}

fn stated_timber(bunks: &Bunks) -> Timber {
    let none = [bunks.bending, bunks.shear, bunks.modulus].iter().all(Option::is_none);
    let allowable = |value, key| {
        let key = if none { TRAILER_BUNKS_WOOD.key() } else { key };
        known(value, key).map(|value| Allowable { value, adjusted: None })
    };
    Timber {
        bending: allowable(bunks.bending, TRAILER_BUNKS_BENDING.key()),
        shear: allowable(bunks.shear, TRAILER_BUNKS_SHEAR.key()),
        bearing: allowable(bunks.bearing, TRAILER_BUNKS_BEARING.key()),
        elasticity: allowable(bunks.modulus, TRAILER_BUNKS_MODULUS.key()),
    }
}

/// Whether the board is of a size that the tables of graded lumber do not cover.
pub(in crate::fit) fn is_beyond_the_tables(setup: &Setup) -> bool {
    let sized = breadth(setup).is_ok() && depth(setup).is_ok();
    sized && bunks(setup).wood.is_some_and(|wood| by_the_tables(setup, wood).is_err())
}

/// What stands between a crossmember and the bunk over it: spacer and bracket; negative where the bunk would have to
/// be notched. Under a board that lies flat, tilted, at its inner edge, which is the lower one.
///
/// # Errors
/// The keys that are missing.
pub fn packing(setup: &Setup, member: usize) -> Known<Length> {
    let top = need(setup, TRAILER_BUNKS_TOP);
    let under = known(setup.trailer.crossmembers[member].top, TRAILER_CROSSMEMBERS_TOP.of(member));
    let board = board(setup)?.ok_or_else(Missing::default);
    let ((top, under), board) = both(both(top, under), board)?;
    let down = match board.lay {
        wood::Lay::OnEdge => board.outer_depth,
        // d cos β down to the outer lower edge, b sin β more to the inner one.
        wood::Lay::Flat => {
            board.outer_depth * board.deadrise.si().cos() + drop(board.breadth, board.deadrise, board.lay)
        }
    };
    Ok(top - down - under)
}
