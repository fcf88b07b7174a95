//! Wording that more than one report shares.

use super::document::{Role, Text};
use crate::fit::{
    Amount, Caution, Deciding, Figures, Judge, OffLevel, Reason, RigVerdict, Row, Scaling, Slip, Source,
    Subject, Verdict,
};
use crate::quantity::show::{UnitSystem, brief, degrees, percent, trimmed};
use crate::quantity::{Kind, Length, Pressure, Quantity, Share, Weight};
use crate::rig::{AssumedValue, BrakeType, Implausible, Key, Reach, Rig, Setup};
use crate::study::sway::{Change, Sway};

/// How many checks are named in a line.
const CHECKS_NAMED: usize = 6;

/// Ids, or the first of them where there are many.
pub(super) fn some_of(ids: &[String]) -> String {
    if ids.len() > CHECKS_NAMED {
        let named = CHECKS_NAMED - 1;
        format!("{} and {} more", ids[..named].join(", "), ids.len() - named)
    } else {
        ids.join(", ")
    }
}

/// What a proposal moves, and what it leaves ashore.
pub(super) fn shifted(setup: &Setup, units: UnitSystem) -> Vec<String> {
    let parts = [
        ("boat", setup.shift.boat),
        ("axles", setup.shift.axles),
        ("tongue drawn in,", setup.shift.tongue),
        ("bunks", setup.shift.bunks),
    ];
    let moved = parts.iter().filter_map(|(part, by)| {
        let by = by.filter(|by| by.si() != 0.0)?;
        Some(format!("{part} {}", aft(by, units)))
    });
    let ashore = setup.shift.ashore.filter(|ashore| ashore.si() > 0.0);
    moved.chain(ashore.map(|ashore| format!("{} left ashore", units.weight(ashore)))).collect()
}

/// A rig's verdict as schemas spell it.
pub(super) fn rig_verdict(verdict: RigVerdict) -> &'static str {
    match verdict {
        RigVerdict::Pass => "pass",
        RigVerdict::Fail => "fail",
        RigVerdict::Incomplete => "incomplete",
        RigVerdict::Unsure => "unsure",
    }
}

/// Why a rig is unsure or incomplete, whatever its rows say.
pub(super) fn reason(reason: &Reason, rig: &Rig, units: UnitSystem) -> String {
    match reason {
        Reason::NoSuchRow(pattern) => {
            format!("the policy counts `{pattern}`, and this rig has no such check")
        }
        Reason::PolicyDecides(ids) => format!("the policy alone keeps {} from failing", ids.join(", ")),
        Reason::BeyondTravel { part, to, reach: range } => format!(
            "the proposed shift.{part} of {} is beyond the travel in the file, {}",
            units.distance(*to),
            reach(*range, units)
        ),
        Reason::StopAheadOfBall(ahead) => format!(
            "the bow stop stands {} ahead of the ball, where there is no trailer to bolt it to",
            units.distance(*ahead)
        ),
        Reason::Pitched { case: of, pitch } => {
            let nose = if pitch.si() > 0.0 { "nose up" } else { "nose down" };
            let case = case(rig, *of);
            format!("the frame stands {} {nose} in \"{case}\", too far from level", degrees(pitch.abs()))
        }
        Reason::Implausible(values) => {
            let said: Vec<String> = values.iter().map(|value| implausible(value, units)).collect();
            format!("is a digit or a unit wrong? {}", some_of(&said))
        }
        Reason::Contradicted { by, others, rows } => format!(
            "{} the rig weighs {}; {} it weighs {}, and {} {}",
            by_source(by.source),
            figures(by, units),
            by_source(others.source),
            figures(others, units),
            some_of(rows),
            if rows.len() == 1 { "fails" } else { "fail" }
        ),
    }
}

/// A path as a shell takes it: within quotes, where it holds more than letters, digits and what paths are made of.
pub(super) fn in_a_shell(path: &str) -> String {
    let is_plain = |letter: char| letter.is_alphanumeric() || "-_./".contains(letter);
    if path.chars().all(is_plain) { path.to_string() } else { format!("'{}'", path.replace('\'', "'\\''")) }
}

/// A value that no such rig has, and what is usual.
pub(super) fn implausible(value: &Implausible, units: UnitSystem) -> String {
    let kind = value.key.input().and_then(crate::rig::Input::kind);
    let of_tires = value.key.path.contains(".tires.");
    let show = |si: f64| match kind {
        Some(Kind::Pressure) if of_tires => units.inflation(Pressure::from_si(si)),
        kind => kind.map_or(String::new(), |kind| brief(si, kind, units)),
    };
    let (least, most) = value.range;
    format!("{} is {} (plausible: {} to {})", value.key, show(value.value), show(least), show(most))
}

fn by_source(source: Source) -> &'static str {
    match source {
        Source::Items => "by the items",
        Source::Scales => "by the scales",
        Source::AxlesWeighed => "by the axles weighed apart",
    }
}

/// Gross and tongue weight.
fn figures(figures: &Figures, units: UnitSystem) -> String {
    let show = |weight: Option<Weight>| weight.map_or("an unknown weight".to_string(), |w| units.weight(w));
    format!("{}, {} on the tongue", show(figures.gross), show(figures.tongue))
}

/// Units as a rig file spells them.
pub(super) fn units(units: UnitSystem) -> &'static str {
    match units {
        UnitSystem::Us => "us",
        UnitSystem::Metric => "metric",
    }
}

/// A check's verdict as schemas spell it.
pub(super) fn verdict(verdict: Verdict) -> &'static str {
    match verdict {
        Verdict::Pass => "pass",
        Verdict::Thin => "thin",
        Verdict::Unsure => "unsure",
        Verdict::Advise => "advise",
        Verdict::Fail => "fail",
        Verdict::NotChecked => "not-checked",
    }
}

/// What a check's verdict turned into: none where there was, or is, no such check.
pub(super) fn turn(was: Option<Verdict>, is: Option<Verdict>) -> Text {
    let word = |verdict: Verdict| (verdict_role(verdict), self::verdict(verdict));
    let (before, (role, now)) = match (was, is) {
        (Some(was), Some(is)) if was == is => return self::verdict(is).into(),
        (Some(was), Some(is)) => (format!("was {}, is ", self::verdict(was)), word(is)),
        (Some(was), None) => (format!("was {}, is ", self::verdict(was)), (Role::NotChecked, "gone")),
        (None, is) => ("is new: ".to_string(), is.map_or((Role::Plain, ""), word)),
    };
    Text::from(before).and(role, now)
}

/// The role of a check's verdict.
pub(super) fn verdict_role(verdict: Verdict) -> Role {
    match verdict {
        Verdict::Pass => Role::Pass,
        Verdict::Thin => Role::Thin,
        Verdict::Unsure => Role::Unsure,
        Verdict::Advise => Role::Advise,
        Verdict::Fail => Role::Fail,
        Verdict::NotChecked => Role::NotChecked,
    }
}

/// The role of a rig's verdict.
pub(super) fn rig_role(verdict: RigVerdict) -> Role {
    match verdict {
        RigVerdict::Pass => Role::Pass,
        RigVerdict::Fail => Role::Fail,
        RigVerdict::Incomplete => Role::NotChecked,
        RigVerdict::Unsure => Role::Unsure,
    }
}

/// All of so many load cases.
pub(super) fn all_cases(count: usize) -> String {
    match count {
        1 => "its load case".to_string(),
        2 => "both load cases".to_string(),
        n => format!("all {n} load cases"),
    }
}

/// An amount for a reader.
pub(super) fn amount(amount: Amount, units: UnitSystem) -> String {
    match amount {
        Amount::Weight(weight) => units.weight(weight),
        Amount::Share(share) => percent(share),
        Amount::Length(length) => units.distance(length),
        Amount::Stress(stress) => units.stress(stress),
        Amount::Deflection(length) => units.fine_distance(length),
        Amount::Inflation(pressure) => units.inflation(pressure),
        Amount::Moment(moment) => units.moment(moment),
        Amount::Speed(speed) => units.speed(speed),
        Amount::Charge(charge) => units.charge(charge),
        Amount::Distance(length) => units.road(length),
        Amount::Force(force) => units.force(force),
        Amount::Number(number) => trimmed(number, 2),
    }
}

/// Where a check's limit comes from.
pub(super) fn basis(row: &Row) -> String {
    let basis = row.check.basis;
    format!("{}; {} ({})", basis.limit, basis.source, basis.certainty.words())
}

/// What is wrong with a row outside its limits, in plain words and numbers; and past what it fails, where that is another limit.
pub(super) fn fault(row: &Row, units: UnitSystem) -> String {
    let shown = |value: Amount| match value {
        Amount::Length(length) if row.check.judge == Judge::Size => units.size(length),
        // What a settled rig clears is known no finer.
        Amount::Length(length) if row.ramp.is_some() => units.rough_distance(length),
        value => amount(value, units),
    };
    let show = |value: Option<Amount>| value.map(shown).unwrap_or_default();
    let Deciding { min, max, margin, .. } = row.advising();
    let miss = margin.map(size);
    let si = |value: Option<Amount>| value.map(Amount::si);
    let under = matches!((si(row.load), si(min)), (Some(load), Some(min)) if load < min);
    let text =
        if under && row.check.judge != Judge::Size { row.check.too_little } else { row.check.too_much };
    let Some(load) = row.load else { return holds_nothing(row) };
    if row.verdict == Verdict::Advise && row.margin.is_some_and(|margin| margin.si() >= 0.0) {
        let (name, load) = (row.name(), amount(load, units));
        return format!("{name}: {load} as stated, past its limit only at the worst of what is uncertain");
    }
    // What is none of them is no share of them.
    let text = if load.si() == 0.0 { text.replace("only {load} of", "none of") } else { text.to_string() };
    row.of
        .fill(&text)
        .replace("{load}", &show(row.load))
        .replace("{min}", &show(min))
        .replace("{max}", &show(max))
        .replace("{miss}", &show(miss))
        + &past_what_it_fails(row, under, units)
}

/// The second limit of a row that fails, on the side on which it does.
fn past_what_it_fails(row: &Row, under: bool, units: UnitSystem) -> String {
    let (first, second, past) =
        if under { (row.min, row.fails_below, "below") } else { (row.max, row.fails_above, "past") };
    match second.filter(|_| row.verdict == Verdict::Fail && first != second) {
        Some(second) => format!("; {past} {} it fails", amount(second, units)),
        None => String::new(),
    }
}

/// An amount without its sign.
pub(super) fn size(amount: Amount) -> Amount {
    amount.with_si(amount.si().abs())
}

/// What is wrong where what should hold or carry does not.
fn holds_nothing(row: &Row) -> String {
    if row.is_about_bunks() {
        return format!(
            "{}: the boat does not lie on its bunks or would tip off them, or fewer than two crossmembers stand under each",
            row.name()
        );
    }
    if row.check.subject == Subject::Winch {
        return format!(
            "{}: no pull moves the boat along such a line, or the motor stalls before it moves",
            row.name()
        );
    }
    if row.check.subject == Subject::Launch {
        return match row.check.id {
            "launch-home" => "the winch cannot draw the boat to her stop at any depth".to_string(),
            _ => "the boat does not come off on this ramp, however far it goes on".to_string(),
        };
    }
    format!("{}: the axle that should hold is unloaded and holds nothing", row.name())
}

/// A length below an eighth of an inch, in metres, is no reading of a tape.
const SMALL: f64 = 0.003;

/// What is assumed, as a rig file would state it.
pub(super) fn assumed(value: AssumedValue, units: UnitSystem) -> String {
    let plain = |value: f64, kind: Kind| brief(value, kind, units);
    match value {
        AssumedValue::Quantity(si, Kind::Length) if si.abs() < SMALL && si != 0.0 => {
            units.fine_distance(Length::from_si(si))
        }
        AssumedValue::Quantity(si, Kind::Length) => units.distance(Length::from_si(si)),
        AssumedValue::Quantity(si, kind) => plain(si, kind),
        AssumedValue::Number(number) => trimmed(number, 4),
        AssumedValue::Band(min, max) => {
            format!("{} to {}", plain(min.si(), Kind::Share), plain(max.si(), Kind::Share))
        }
        AssumedValue::Word(word) => word.to_string(),
    }
}

/// A travel from end to end.
pub(super) fn reach(reach: Reach, units: UnitSystem) -> String {
    format!("{} to {}", units.distance(reach.from), units.distance(reach.to))
}

/// A length with the way it goes.
pub(super) fn aft(length: Length, units: UnitSystem) -> String {
    let way = if length.si() < 0.0 { "forward" } else { "aft" };
    format!("{} {way}", units.distance(length.abs()))
}

/// What is done to the items so that they give back the scale figures.
pub(super) fn scaling(scaling: Scaling, units: UnitSystem) -> String {
    format!(
        "As the policy asks, the items are brought to the scale figures: every weight times {:.4}, every station moved {} {}.",
        scaling.factor,
        units.rough_length(scaling.forward.abs()),
        if scaling.forward.si() < 0.0 { "aft" } else { "forward" }
    )
}

/// A computed length with the way it goes.
pub(super) fn roughly_aft(length: Length, units: UnitSystem) -> String {
    let way = if length.si() < 0.0 { "forward" } else { "aft" };
    format!("{} {way}", units.rough_length(length.abs()))
}

/// The name of a ramp.
pub(super) fn ramp(rig: &Rig, ramp: usize) -> &str {
    rig.proposed().ramps[ramp].name.as_deref().unwrap_or_default()
}

/// The name of a case.
pub(super) fn case(rig: &Rig, case: usize) -> &str {
    rig.proposed().cases[case].name.as_deref().unwrap_or_default()
}

/// One, two and three.
pub(super) fn listed(all: &[String]) -> String {
    match all {
        [] => String::new(),
        [one] => one.clone(),
        [first @ .., last] => format!("{} and {last}", first.join(", ")),
    }
}

/// A caution in words.
pub(super) fn caution(caution: &Caution, rig: &Rig, units: UnitSystem) -> String {
    match caution {
        Caution::Screening => "This is a screening calculation from the numbers in the file, static and on level ground unless it says otherwise. Confirm the loads on a scale before you tow.".into(),
        Caution::PlacardsGovern => "Placards, owner's manuals and local law govern.".into(),
        Caution::QualifiedWork => "Structural or brake work on trailer, hitch or tow vehicle belongs to a qualified person.".into(),
        Caution::StandClear => "Never stand behind or between boat, trailer and tow vehicle while loading.".into(),
        Caution::LiftsTowVehicle(i) => format!(
            "Dangerous: in \"{}\" the trailer lifts the tow vehicle. It will sway, and its parking brake holds nothing on a ramp. Do not tow it.",
            case(rig, *i)
        ),
        Caution::LiftedIsNoBound => "The rear axle lifted on level ground is not the worst that a sharp ramp head can do. Describe the ramp in [[ramps]] to have it checked.".into(),
        Caution::SlidesByHerself(ramp) => format!(
            "On \"{}\" the boat slides off by herself as soon as she is unhooked: keep strap and safety chain on until she floats.",
            self::ramp(rig, *ramp)
        ),
        Caution::TrailerNearlyFloats => "The trailer's tires and frame float more than three quarters of its weight: with the boat off it may shift on the ramp.".into(),
        Caution::LampsWet(ramp) => format!(
            "On \"{}\" the trailer's lamps get wet before the boat comes off: unplug them and let them cool first.",
            self::ramp(rig, *ramp)
        ),
        Caution::BrakingNotInAxleLoads => "Axle loads under braking are not computed: the effect of brake torque on the springs is not modelled.".into(),
        Caution::BeyondTravel { part, to, reach: range } => format!(
            "The proposal puts the {part} {}, beyond the travel that the file allows ({}).",
            aft(*to, units),
            reach(*range, units)
        ),
        Caution::ScalesDiffer { weight, aft: by, .. } => {
            let more = if weight.si() < 0.0 { "less" } else { "more" };
            format!(
                "The listed items weigh {} {more} than the scales say, and put the centre of gravity {}. The loads are computed from {}.",
                units.weight(weight.abs()),
                roughly_aft(*by, units),
                if rig.measured().goes_by_scales() { "the items brought to the scales" } else { "the items" }
            )
        }
        Caution::ScaledFar(factor) => format!(
            "To give back the scale figures the items' weights are multiplied by {factor:.2}. So much is more likely a mistake in the list or on the scale: find it before you trust the loads."
        ),
        Caution::AxlesOffScales { axles, rest } => format!(
            "Weighed apart the axles carry {} together, but gross less tongue weight is {}. Weigh again; until then neither is sure.",
            units.weight(*axles),
            units.weight(*rest)
        ),
        Caution::CentreOutsideBoat => "The scale figures put the boat's centre of gravity outside the boat. Check them, and check where the boat sits.".into(),
        Caution::AxleWeightStays => "The axles move, but not every axle's own weight is given. An axle without one does not move the trailer's centre of gravity.".into(),
        Caution::LiftsOnRamp { ramp: i, case: j, at } => format!(
            "Dangerous: on \"{}\", in \"{}\", the trailer lifts the tow vehicle {} past the first break, and unloads its parking brake.",
            ramp(rig, *i),
            case(rig, *j),
            units.along(*at)
        ),
        Caution::TowAxleLifts { ramp: i, case: j, at } => format!(
            "Dangerous: on \"{}\", in \"{}\", {} past the first break, an axle of the parked tow vehicle lifts. It neither steers nor holds, and the friction shown there means nothing.",
            ramp(rig, *i),
            case(rig, *j),
            units.along(*at)
        ),
        Caution::StrandedOnRamp { ramp: i, case: j, at, why } => format!(
            "On \"{}\", in \"{}\", past {} beyond the first break: {why}. Nothing is computed for that ramp.",
            ramp(rig, *i),
            case(rig, *j),
            units.along(*at)
        ),
        Caution::ProfileTooShort { ramp: i, needed } => format!(
            "\"{}\" ends before the whole tow vehicle is past its last break, so not every check of it can pass. Describe its last run over {} or more, as far as the trailer goes.",
            ramp(rig, *i),
            units.along(*needed)
        ),
        Caution::OneCrossmemberCarriesMost { member, share } => format!(
            "Crossmember {} carries {} of each bunk's load. Packing that lets its neighbours take more, or another crossmember, would spread it.",
            member + 1,
            percent(*share)
        ),
        Caution::BunkPullsUp { member, case: i, pull } => format!(
            "In \"{}\" each bunk pulls up on crossmember {} with {}. Its bolts must hold it down.",
            case(rig, *i),
            member + 1,
            units.weight(*pull)
        ),
        Caution::BeyondLumberTables => "The tables of graded lumber stop at 4 in thick and 12 in wide: for these bunks leave trailer.bunks.wood out and state bending, shear and modulus.".into(),
        Caution::UnevenBunks { off_centre, heel } => format!(
            "One bunk stands farther out than the other: the boat lies up to {} off the centreline, or heels by up to {}. Heights and clearances are for a boat that is upright and on the centreline.",
            units.distance(*off_centre),
            degrees(*heel)
        ),
        Caution::BottomTwists(gap) => format!(
            "The bottom twists: a bunk cut to the least deadrise stands off it by up to {} elsewhere. Loads and pressures are for bunks packed or planed to touch all along.",
            units.distance(*gap)
        ),
        Caution::ChineOffDeadrise(off) => {
            let way = if off.si() < 0.0 { "lower" } else { "higher" };
            format!(
                "The chine is {} {way} than its half-breadth and the deadrise give: measure again.",
                units.distance(off.abs())
            )
        }
        Caution::KeelOffBunks(off) => {
            let way = if off.si() < 0.0 { "lower" } else { "higher" };
            format!(
                "The file's keel height is {} {way} than the bunks' height, spacing and the deadrise give: measure again. Every clearance is computed for the lower of the two.",
                units.distance(off.abs())
            )
        }
        Caution::BunkThroughCrossmember { member, by } => format!(
            "Crossmember {} stands {} higher than the bunks' lower edge: measure again, or the bunks would have to be notched.",
            member + 1,
            units.distance(*by)
        ),
        Caution::HolePastTheEnd { member, past } => format!(
            "A bolt hole at crossmember {} lies off the bunk, {} past its end: move or lengthen the bunk.",
            member + 1,
            units.distance(*past)
        ),
        Caution::HolesTooHigh { height, depth } => format!(
            "Bolt holes {} above the bunk's lower edge miss its inner side, which is {} deep.",
            units.distance(*height),
            units.distance(*depth)
        ),
        Caution::ActuatorForOthers { made_for } => format!(
            "The actuator is made for {}, and an axle has the other kind: a drum actuator's valve keeps pressure in the line and drags discs; a disc actuator leaves drums slack.",
            if *made_for == BrakeType::Disc { "discs" } else { "drums" }
        ),
        Caution::BrakesOnInReverse => "Surge brakes push themselves on while you back up. Discs need a lock-out; drums may be of a kind that frees itself. State trailer.brakes.reverse.".into(),
        Caution::NoBreakaway => "No breakaway cable is stated: if the trailer comes loose nothing sets its brakes. 49 CFR 393.43(d) wants them to apply at once and hold for 15 minutes.".into(),
        Caution::WetLinings => "Brakes that have been under water hold less. Drag them dry before you need them.".into(),
        Caution::RopeOnDrum { wire } => format!(
            "The winch's pull is computed as if each turn of its {} lay on the last: side by side it pulls more.{}",
            if *wire { "wire" } else { "rope" },
            if *wire { " Wire beds between slack turns and jams: wind it up under load." } else { "" }
        ),
        Caution::SmallCore { core, least } => format!(
            "The winch's drum measures {}; wire of this thickness wants {} at least, or it breaks strand by strand.",
            units.distance(*core),
            units.distance(*least)
        ),
        Caution::LinePullsDown(angle) => format!(
            "With the bow eye at the stop the winch's line leads down by {}: it presses the bow on the bunks and takes more pull. Set the drum at the height of the eye or above.",
            degrees(angle.abs())
        ),
        Caution::OffLevel(off) => off_level(off, rig, units),
        Caution::Slip(slip) => self::slip(slip, units),
        Caution::JackLowerBound => "The jack's station is not given: its load is a lower bound.".into(),
        Caution::OnBump { axle, case: i } => format!(
            "The springs of axle {} are on their bump stops in \"{}\", standing still.",
            axle + 1,
            case(rig, *i)
        ),
        Caution::EqualizerAtStop { case: i } => format!(
            "An equalizer is at its stop in \"{}\" on level ground: the axles no longer share equally.",
            case(rig, *i)
        ),
        Caution::SideLifts(i) => format!("In \"{}\" the lighter side would lift.", case(rig, *i)),
        Caution::ClampsNearer => "The tongue's clamps come nearer to each other by more than a fifth: both hold more than before.".into(),
        Caution::RailsOutOfBalance => "The frame rails are not checked: the boat does not lie on its bunks, or their loads do not balance.".into(),
        Caution::IdleEqualizerTravel => "equalizer_travel is not used, because this suspension has no equalizers.".into(),
        Caution::TwoTireRatings { axle, rating, by_index } => format!(
            "The tires of axle {} are rated {}, and their load index stands for {}: the lesser counts. Read the sidewall again.",
            axle + 1,
            units.weight(*rating),
            units.weight(*by_index)
        ),
        Caution::SizeNotStated { length, width, height } => {
            let sizes = [(length, "long from the ball"), (width, "wide"), (height, "high")];
            let sizes = sizes.into_iter().filter_map(|(size, way)| Some((size.as_ref()?, way)));
            let sizes: Vec<String> =
                sizes.map(|(size, way)| format!("{} {way}", units.rough_length(*size))).collect();
            format!(
                "How large it is on the road is not checked: trailer and boat are {}. Look up what the law allows where you tow, and state it in policy.size.",
                listed(&sizes)
            )
        }
        Caution::FloatsOtherwise { taped, computed } => format!(
            "Afloat the transom's draft was taped as {}, and weights and hull give {}. Check the weights, the hull's measures and the tape: all that is said of launching depends on them.",
            units.rough_distance(*taped),
            units.rough_distance(*computed)
        ),
        Caution::RearAxleOverRating => "The tow vehicle's rear axle carries more than its rating, as European rules let it while it tows: drive no faster than 100 km/h, with its tires 0.2 bar above their usual pressure.".into(),
        Caution::BarsOffOnRamps => "Ramps are crossed with the bars of the weight distribution hitch off: take them off before the ramp.".into(),
        Caution::PassengerTires => "Passenger-car tires: their ratings are divided by 1.10 on a trailer (49 CFR 571.120 S5.1.2).".into(),
    }
}

/// How a frame stands that is not level.
fn off_level(off: &OffLevel, rig: &Rig, units: UnitSystem) -> String {
    let nose = if off.pitch.si() > 0.0 { "up" } else { "down" };
    let (case, pitch) = (case(rig, off.case), degrees(off.pitch.abs()));
    let apart = off.apart.map(|[least, most]| [least, most].map(|load| units.weight(load)));
    let apart = apart.map(|[least, most]| format!(", and its torsion axles carry from {least} to {most}"));
    let levels =
        off.levels_at.map(|height| format!(" A ball {} above ground levels it.", units.rough_length(height)));
    let (apart, levels) = (apart.unwrap_or_default(), levels.unwrap_or_default());
    format!("In \"{case}\" the frame stands {pitch} nose {nose}{apart}.{levels}")
}

/// What a figure probably is instead.
fn slip(slip: &Slip, units: UnitSystem) -> String {
    match slip {
        Slip::BeyondHull { key, station, length } => format!(
            "{key} is {}, outside a boat of {}: are feet taken for inches, or is it in another unit?",
            units.length(*station),
            units.length(*length)
        ),
        Slip::ThousandsDot { key, number, unit } => format!(
            "{key} is {number} {unit}: if the dot is one of thousands, write {} {unit}.",
            number.replace('.', "")
        ),
        Slip::WeightForLength { weight, length } => format!(
            "A boat of {} that weighs {} is rare: is one of the two in another unit, or is something left out or listed twice?",
            units.length(*length),
            units.weight(*weight)
        ),
        Slip::Centre { station, length } => format!(
            "The boat's centre of gravity comes out {}, which is rare in a boat of {}: stations are measured from the transom forward, not from the bow.",
            from_transom(*station, units),
            units.length(*length)
        ),
        Slip::EmptyTongue(weight) => format!(
            "measured.tongue_weight, {}, is the empty trailer's tongue weight as well: weigh the tongue with the boat on.",
            units.weight(*weight)
        ),
        Slip::LoadedTongue(weight) => format!(
            "trailer.tongue_weight, {}, is much for an empty trailer: is it the tongue weight with the boat on? That is measured.tongue_weight.",
            units.weight(*weight)
        ),
        Slip::TireForAxle(axle) => format!(
            "Axle {} has about the rating of one of its tires: tires are rated each, an axle whole. One of the two is probably the other's.",
            axle + 1
        ),
        Slip::Radius { axle, radius, nominal } => format!(
            "The tires of axle {} measure {} from hub to ground, more than half their nominal diameter, {}: measure again, or check the size.",
            axle + 1,
            units.distance(*radius),
            units.rough_length(*nominal)
        ),
        Slip::GvwrUnderBoat { gvwr, boat } if boat >= gvwr => format!(
            "The boat alone weighs {}; the trailer's GVWR is {}.",
            units.weight(*boat),
            units.weight(*gvwr)
        ),
        Slip::GvwrUnderBoat { gvwr, boat } => format!(
            "The GVWR, {}, leaves {} for the trailer itself under a boat of {}: ask what the trailer weighs.",
            units.weight(*gvwr),
            units.weight(*gvwr - *boat),
            units.weight(*boat)
        ),
        Slip::GvwrOverParts { gvwr, parts, tongue_taken } => format!(
            "The GVWR, {}, is more than the ratings of axles and {} together, {}: one of them is probably misread.",
            units.weight(*gvwr),
            if *tongue_taken { "15 % of it on the tongue" } else { "coupler's tongue" },
            units.weight(*parts)
        ),
    }
}

/// A station with the side of the transom that it lies on.
fn from_transom(station: Length, units: UnitSystem) -> String {
    let side = if station.si() < 0.0 { "behind" } else { "forward of" };
    format!("{} {side} the transom", units.rough_length(station.abs()))
}

/// The one of two forms of a verb, or of a word that goes with it, that a name asks for: "tires of axle 2 are", "axle 2 is".
pub(super) fn agreeing(name: &str, one: &'static str, several: &'static str) -> &'static str {
    if is_of_several(name) { several } else { one }
}

/// What may follow the things that a name is of.
const FOLLOWS: [&str; 14] = [
    " of ",
    " on ",
    " in ",
    " with ",
    " over ",
    " at ",
    " as ",
    " for ",
    " against ",
    " beside ",
    " where ",
    " together",
    " pulling ",
    ", ",
];

/// Whether a name is of several things: its words before what follows them end as a plural does, or are two with an "and".
fn is_of_several(name: &str) -> bool {
    let ends = FOLLOWS.iter().filter_map(|follows| name.find(follows));
    let things = &name[..ends.min().unwrap_or(name.len())];
    let plural = things.ends_with('s') && !things.ends_with("ss") && !things.ends_with("'s");
    plural || things.ends_with("feet") || things.contains(" and ")
}

/// A share of a rating in whole percent.
pub(super) fn used(share: Share) -> String {
    format!("{} %", crate::quantity::show::whole(share.si() * 100.0))
}

/// Keys as they are typed, a row of the table of inputs once: for all axles, where it is one of theirs.
pub fn keys(keys: &[Key]) -> Vec<String> {
    let mut shown: Vec<String> = Vec::new();
    for key in keys {
        let of_all = keys.iter().filter(|other| other.path == key.path).count() > 1;
        let key = if of_all { key.path.replace('*', "all") } else { key.to_string() };
        if !shown.contains(&key) {
            shown.push(key);
        }
    }
    shown
}

/// What a comparison of sway leaves out.
pub(super) const NO_VERDICT_ON_SWAY: &str = "No verdict: it compares settings of one rig only, each in its first case, and no driver, hitch friction, drag or lag of tires is in it.";

/// How a rig sways beside another setting of it.
pub(super) fn sway(sway: &Sway, other: &str, units: UnitSystem) -> String {
    let speed = |speed| units.speed(speed);
    let at = sway
        .as_steady_at
        .map(|at| format!(", as steady at {} as {other} at {}", speed(at), speed(sway.speed)));
    let at = at.unwrap_or_else(|| format!(" at {}", speed(sway.speed)));
    match sway.change {
        Change::Steadier => format!("steadier{at}"),
        Change::LessSteady => format!("less steady{at}"),
        Change::CannotTell => {
            format!("steadier or less steady{at}: nobody can tell without its tires' figures")
        }
        Change::NoDifference => format!("no different{at}"),
        Change::WellDamped => format!("well damped both ways{at}"),
    }
}

/// A change of sway as schemas spell it.
pub(super) fn sway_change(change: Change) -> &'static str {
    match change {
        Change::Steadier => "steadier",
        Change::LessSteady => "less-steady",
        Change::CannotTell => "cannot-tell",
        Change::NoDifference => "no-difference",
        Change::WellDamped => "well-damped",
    }
}

/// The caution that stands on every page.
pub const SCREENING: &str = "Screening only: weigh it before the road. Placards, manuals and law govern.";

/// Keys in a line: what several in a row begin with stands once.
pub fn abbreviated(keys: &[&str]) -> String {
    let mut said = String::new();
    let mut before = "";
    for key in keys {
        let (parent, last) = key.rsplit_once('.').unwrap_or(("", key));
        let parts = match () {
            () if said.is_empty() => ["", *key],
            () if parent == before && !parent.is_empty() => [", .", last],
            () => ["; ", *key],
        };
        said.extend(parts);
        before = parent;
    }
    said + "."
}

#[cfg(test)]
mod tests {
    use super::{agreeing, in_a_shell};
    use crate::fit::checks;

    #[test]
    fn a_path_goes_to_a_shell_whole() {
        for (path, quoted) in [
            ("rigs/a-b_2.toml", "rigs/a-b_2.toml"),
            ("my boat.toml", "'my boat.toml'"),
            ("o'hara.toml", "'o'\\''hara.toml'"),
            ("$(x).toml", "'$(x).toml'"),
        ] {
            assert_eq!(in_a_shell(path), quoted);
        }
    }

    /// The checks of which the name is of several things; that of every other is of one.
    const OF_SEVERAL: [&str; 26] = [
        "brakes-required",
        "bunk-bracket",
        "bunk-foot",
        "launch-guides",
        "launch-home",
        "launch-tow-tire",
        "lifted-tire-*",
        "lifted-tires-total",
        "rail-bending",
        "ramp-tire-*",
        "safety-chains",
        "spring-*",
        "surge-ratio",
        "tie-down-down",
        "tie-down-forward",
        "tie-down-forward-breaking",
        "tie-down-rearward",
        "tie-down-rearward-breaking",
        "tie-down-side",
        "tie-down-side-breaking",
        "tie-down-total",
        "tire-*",
        "wheel-*",
        "axle-tires-*",
        "cross-slope-tire-*",
        "tire-construction",
    ];

    #[test]
    fn a_verb_agrees_with_the_name_of_every_check() {
        for check in checks() {
            let several = OF_SEVERAL.contains(&check.id);
            let name = check.name.replace('*', "2");
            assert_eq!(agreeing(&name, "is", "are") == "are", several, "{}: {name}", check.id);
        }
    }

    #[test]
    fn a_verb_agrees_with_links_and_with_names_of_the_owner() {
        for (name, verb) in [
            ("tie-downs", "hold"),
            ("safety chains", "hold"),
            ("bow eye", "holds"),
            ("compass over the crossmembers", "holds"),
            ("skegs over the crossmembers", "hold"),
        ] {
            assert_eq!(agreeing(name, "holds", "hold"), verb, "{name}");
        }
    }
}
