//! The bunks' board, what its wood may bear, and what stands under it.

use super::hull::{deadrise, steepest};
use super::layout::bunks;
use crate::fit::known::{Known, Missing, both, need, need_of};
use crate::mechanics::bunks::{Bevelled, drop};
use crate::mechanics::wood::{self, Adjusted, Board, LoadDuration, Lumber, Use};
use crate::quantity::{Length, Pressure, Quantity};
use crate::rig::{Bunks, Lay, Service, Setup, Wood, nominal_size};

/// What a board may be stressed to.
#[derive(Debug, Clone, PartialEq)]
pub struct Allowable {
    /// The stress, or the modulus of elasticity.
    pub value: Pressure,
    /// How it follows from the grade's design value; none where the file states it.
    pub adjusted: Option<Adjusted>,
}

/// What the bunks' wood may bear.
#[derive(Debug, Clone, PartialEq)]
pub struct Timber {
    /// In bending.
    pub bending: Allowable,
    /// In shear along the grain.
    pub shear: Allowable,
    /// Its modulus of elasticity.
    pub elasticity: Allowable,
}

/// The bunks' board across and up and down, as it lies.
pub(super) fn size(setup: &Setup) -> Known<(Length, Length)> {
    let bunks = bunks(setup);
    let Some(board) = bunks.board.as_deref() else {
        let lacking = if bunks.depth.is_some() { "trailer.bunks.width" } else { "trailer.bunks.board" };
        let width = need(bunks.width, lacking);
        let lacking = if bunks.width.is_some() { "trailer.bunks.depth" } else { "trailer.bunks.board" };
        return both(width, need(bunks.depth, lacking));
    };
    // A file with another size does not read.
    let board = nominal_size(board).and_then(|[one, other]| Board::nominal(one, other));
    let board = need(board, "trailer.bunks.board")?;
    Ok(match bunks.lay {
        Some(Lay::Flat) => (board.width, board.thickness),
        _ => (board.thickness, board.width),
    })
}

/// The bunks' board cut to the hull; none where the bevel would leave nothing of its inner edge.
///
/// # Errors
/// The keys that are missing.
pub fn board(setup: &Setup) -> Known<Option<Bevelled>> {
    let ((breadth, depth), (deadrise, steepest)) = both(size(setup), both(deadrise(setup), steepest(setup)))?;
    let lay = match bunks(setup).lay {
        Some(Lay::Flat) => wood::Lay::Flat,
        _ => wood::Lay::OnEdge,
    };
    Ok(Bevelled::cut(breadth, depth, lay, deadrise, steepest))
}

pub(super) fn cut(setup: &Setup) -> Known<Bevelled> {
    board(setup)?.ok_or_else(Missing::default)
}

/// What the wood may bear.
///
/// # Errors
/// The keys that are missing.
pub fn timber(setup: &Setup) -> Known<Timber> {
    let bunks = bunks(setup);
    let Some(wood) = bunks.wood else {
        return stated_timber(bunks);
    };
    let lumber = match wood {
        Wood::DouglasFirLarch2 => Lumber::DouglasFirLarch2,
        Wood::SouthernPine2 => Lumber::SouthernPine2,
        Wood::WesternCedar2 => Lumber::WesternCedar2,
    };
    let service = match bunks.service {
        Some(Service::Dry) => wood::Service::Dry,
        _ => wood::Service::Wet,
    };
    let (breadth, depth) = size(setup)?;
    let board = Board { thickness: breadth.min(depth), width: breadth.max(depth) };
    let how = Use { duration: LoadDuration::Permanent, service };
    let values = lumber.design_values(board).and_then(|values| wood::allowed(values, board, how));
    // A caution says that the tables do not cover the size.
    let values = values.map_err(|_| Missing::default())?;
    let allowable = |adjusted: Adjusted| Allowable { value: adjusted.value(), adjusted: Some(adjusted) };
    Ok(Timber {
        bending: allowable(values.bending),
        shear: allowable(values.shear),
        elasticity: allowable(values.elasticity),
    })
}

fn stated_timber(bunks: &Bunks) -> Known<Timber> {
    let stated = [bunks.bending, bunks.shear, bunks.modulus];
    if stated.iter().all(Option::is_none) {
        return Err(Missing::key("trailer.bunks.wood"));
    }
    let allowable = |value, path| need(value, path).map(|value| Allowable { value, adjusted: None });
    let bending = allowable(bunks.bending, "trailer.bunks.bending");
    let shear = allowable(bunks.shear, "trailer.bunks.shear");
    let elasticity = allowable(bunks.modulus, "trailer.bunks.modulus");
    let ((bending, shear), elasticity) = both(both(bending, shear), elasticity)?;
    Ok(Timber { bending, shear, elasticity })
}

/// Whether the board is of a size that the tables of graded lumber do not cover.
pub(in crate::fit) fn is_beyond_the_tables(setup: &Setup) -> bool {
    bunks(setup).wood.is_some() && size(setup).is_ok() && timber(setup).is_err()
}

/// What stands between a crossmember and the bunk over it: spacer and bracket; negative where the bunk would have to
/// be notched. Under a board that lies flat, tilted, at its inner edge, which is the lower one.
///
/// # Errors
/// The keys that are missing.
pub fn packing(setup: &Setup, member: usize) -> Known<Length> {
    let top = need(setup.trailer.bunks.top, "trailer.bunks.top");
    let under = need_of(setup.trailer.crossmembers[member].top, "trailer.crossmembers.*.top", member);
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
