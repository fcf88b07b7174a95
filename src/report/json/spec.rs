//! The trailer to look for as one document. `asks` are by figure, each with its `least` and the check that asks for it;
//! `own_weight` and `gvwr` hold a light, a usual and a heavy trailer's; in `spots` lengths run aft of the ball, and `window`
//! is how far aft of there the boat may sit, forward negative; `trailer` is the text of a rig file of such a trailer.

use super::{TOOL, Tool, Units};
use crate::fit::Row;
use crate::quantity::show::{UnitSystem, number};
use crate::quantity::{Kind, Length, Quantity, Weight};
use crate::report::words;
use crate::rig::Key;
use crate::study::spec::{Ask, Figure, Least, Sheet};
use serde::Serialize;

#[derive(Serialize)]
struct Document<'a> {
    schema: u32,
    tool: Tool,
    boat_file: &'a str,
    units: Units,
    verdict: &'static str,
    boat_weight: f64,
    boat_weight_at_most: f64,
    /// Keys and parts of which a digit or a unit is probably wrong.
    ask_first: Vec<String>,
    reserve: f64,
    axles: usize,
    own_weight: [f64; 3],
    own_weight_at_most: Option<f64>,
    gvwr: [f64; 3],
    capacity: f64,
    ball: Option<f64>,
    level_ball_height: Option<f64>,
    asks: Vec<Asked<'a>>,
    axle_choices: Vec<Axles>,
    bunks: Option<Bunks>,
    spots: Vec<Spot>,
    unmet: Vec<Unmet>,
    trailer: &'a str,
}

#[derive(Serialize)]
struct Asked<'a> {
    figure: &'static str,
    least: f64,
    unit: &'static str,
    load: Option<f64>,
    check: &'a str,
}

#[derive(Serialize)]
struct Axles {
    count: usize,
    rating: f64,
    tire: f64,
    load: f64,
    tire_load: f64,
    tire_load_index: Option<u32>,
    lifted: Option<f64>,
    lifted_missing: Vec<String>,
}

#[derive(Serialize)]
struct Bunks {
    length: f64,
    spacing: f64,
}

#[derive(Serialize)]
struct Spot {
    axles: f64,
    bow_stop: f64,
    transom: f64,
    window: [f64; 2],
}

#[derive(Serialize)]
struct Unmet {
    check: String,
    verdict: &'static str,
    missing: Vec<String>,
}

/// A sheet over several lines.
///
/// # Errors
/// Never in practice: every part of it can be written as JSON.
pub fn sheet(sheet: &Sheet, boat_file: &str, units: UnitSystem) -> serde_json::Result<String> {
    let weight = |weight: Weight| units.weight_number(weight);
    let length = |length: Length| units.length_number(length);
    serde_json::to_string_pretty(&Document {
        schema: 1,
        tool: TOOL,
        boat_file,
        units: Units::of(units),
        verdict: words::rig_verdict(sheet.found.verdict),
        boat_weight: weight(sheet.boat),
        boat_weight_at_most: weight(sheet.boat_at_most),
        ask_first: {
            let keys = sheet.implausible.iter().map(|value| value.key.to_string());
            keys.chain(sheet.beyond_sold.iter().map(|of| figure(*of).to_string())).collect()
        },
        reserve: sheet.reserve.si(),
        axles: sheet.axles,
        own_weight: sheet.own.map(weight),
        own_weight_at_most: sheet.own_at_most.map(weight),
        gvwr: sheet.gross.map(weight),
        capacity: weight(sheet.capacity),
        ball: sheet.ball.map(length),
        level_ball_height: sheet.level_at.map(length),
        asks: sheet.asks.iter().map(|ask| asked(ask, units)).collect(),
        axle_choices: sheet
            .choices
            .iter()
            .map(|choice| Axles {
                count: choice.count,
                rating: weight(choice.rating),
                tire: weight(choice.tire),
                load: weight(choice.load),
                tire_load: weight(choice.on_tire),
                tire_load_index: choice.tire_index,
                lifted: choice.lifted.map(weight),
                lifted_missing: choice.lifted_lacks.iter().map(Key::to_string).collect(),
            })
            .collect(),
        bunks: sheet
            .bunks
            .map(|bunks| Bunks { length: length(bunks.length), spacing: length(bunks.spacing) }),
        spots: sheet
            .spots
            .iter()
            .map(|spot| Spot {
                axles: length(spot.axles),
                bow_stop: length(spot.bow_stop),
                transom: length(spot.transom),
                window: spot.window.map(length),
            })
            .collect(),
        unmet: sheet.unmet.iter().map(unmet).collect(),
        trailer: &sheet.trailer,
    })
}

fn asked(ask: &Ask, units: UnitSystem) -> Asked<'_> {
    let amount = |least: Least| match least {
        Least::Weight(weight) => (units.weight_number(weight), units.weight_unit()),
        Least::Modulus(modulus) => {
            let (value, unit) = number(modulus.si(), Kind::SectionModulus, units);
            (value, unit.unwrap_or_default())
        }
    };
    let (least, unit) = amount(ask.least);
    Asked {
        figure: figure(ask.figure),
        least,
        unit,
        load: ask.load.map(|load| amount(load).0),
        check: &ask.by,
    }
}

fn figure(figure: Figure) -> &'static str {
    match figure {
        Figure::Gross => "gvwr",
        Figure::Axle => "axle",
        Figure::Tire => "tire",
        Figure::Coupler => "coupler",
        Figure::CouplerTongue => "coupler-tongue",
        Figure::Chain => "safety-chain",
        Figure::Jack => "jack",
        Figure::Winch => "winch",
        Figure::Strap => "winch-strap",
        Figure::Tongue => "tongue-section-modulus",
    }
}

fn unmet(row: &Row) -> Unmet {
    Unmet {
        check: row.id(),
        verdict: words::verdict(row.verdict),
        missing: row.missing.iter().map(ToString::to_string).collect(),
    }
}
