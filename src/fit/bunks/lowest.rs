//! The lowest that the boat may lie.

use super::clearances::{gear_clearance, is_passed_over, keel_clearance, rise_over_fender};
use super::hull::{safe_keel, top_for};
use super::layout::{bunks, supports};
use super::timber::packing;
use crate::fit::known::{Known, each};
use crate::quantity::{Length, Quantity};
use crate::rig::{Fenders, Setup, slug};

/// What decides how low the boat may lie.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Decides {
    /// The check of this id.
    Check(String),
    /// The bunks come down on this crossmember, counted from 0.
    Crossmember(usize),
}

/// The lowest that the boat may lie.
#[derive(Debug, Clone, PartialEq)]
pub struct Lowest {
    /// What decides it.
    pub decides: Decides,
    /// How much the boat must rise for it, negative how much it could come down.
    pub rise: Length,
    /// The keel above ground then, where known.
    pub keel: Option<Length>,
    /// The bunks' outer upper edge above ground then, where known.
    pub top: Option<Length>,
    /// The spacer under the bunks then: nothing at the least.
    pub spacer: Length,
}

/// The lowest that the boat may lie for everything to clear, or `None` where nothing asks for a clearance. At rest, but beside
/// the fenders, where loading counts too.
///
/// # Errors
/// The keys that are missing: of several clearances none may be left out.
pub fn lowest(setup: &Setup) -> Known<Option<Lowest>> {
    let Some((decides, rise)) = least_rise(setup)? else { return Ok(None) };
    let keel = safe_keel(setup).ok().map(|keel| keel + rise);
    let spacer = bunks(setup).spacer.unwrap_or_default() + rise;
    // The bunks rise as the boat does, whatever was measured of either.
    let top = bunks(setup).top.map(|top| top + rise);
    let top = top.or_else(|| top_for(setup, keel?).ok());
    Ok(Some(Lowest { decides, rise, keel, top, spacer: spacer.max(Length::default()) }))
}

fn least_rise(setup: &Setup) -> Known<Option<(Decides, Length)>> {
    let wanted = setup.policy.clearance.unwrap_or_default();
    let members = (0..setup.trailer.crossmembers.len()).filter(|member| is_passed_over(setup, *member));
    let keels = members.map(|member| {
        let id = format!("clearance-keel-{}", member + 1);
        Ok((Decides::Check(id), wanted - keel_clearance(setup, member)?))
    });
    let points = setup.boat.low_points.iter().enumerate();
    let gear = points.map(|(point, gear)| {
        let name = slug(gear.name.as_deref().unwrap_or_default());
        let id = format!("clearance-gear-{name}");
        Ok((Decides::Check(id), wanted - gear_clearance(setup, point)?))
    });
    let over_fender = match rise_over_fender(setup) {
        Err(missing) if setup.trailer.fenders != Fenders::default() => return Err(missing),
        rise => rise.ok().flatten(),
    };
    let fender = over_fender.map(|rise| Ok((Decides::Check("clearance-fender".to_string()), rise)));
    let clearances: Vec<(Decides, Length)> = each(keels.chain(gear).chain(fender))?;
    let rise = clearances.into_iter().max_by(|(_, a), (_, b)| a.si().total_cmp(&b.si()));
    let Some(rise) = rise else { return Ok(None) };
    // The bunks cannot come down through what they stand on.
    let packed = supports(setup)?.into_iter();
    let packed = packed.map(|(member, _)| Ok((Decides::Crossmember(member), -packing(setup, member)?)));
    let packed: Vec<(Decides, Length)> = each(packed)?;
    Ok(Some(packed.into_iter().fold(rise, |most, next| if next.1 > most.1 { next } else { most })))
}
