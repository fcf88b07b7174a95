//! What can be wrong with a rig file, as facts with their places.

use super::inputs::{self, Key};
use super::source::{Sources, Span};
use crate::quantity::{Kind, QuantityFault};

/// One mistake, and where it stands.
#[derive(Debug, Clone, PartialEq)]
pub struct Problem {
    /// What is wrong.
    pub fault: Fault,
    /// Where, if it stands anywhere.
    pub at: Option<Span>,
    /// The other place that the mistake is about, as of a contradiction.
    pub other: Option<Span>,
}

/// Every mistake found in one reading, in the order of the text.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[error("{}", self.summary())]
pub struct Problems {
    /// The texts that were read.
    pub sources: Sources,
    /// The mistakes; never empty.
    pub list: Vec<Problem>,
}

impl Problems {
    /// The first mistake in words, and how many more there are.
    fn summary(&self) -> String {
        let first = self.list.first().map(|problem| problem.fault.to_string()).unwrap_or_default();
        match self.list.len() {
            0 | 1 => first,
            n => format!("{first} (and {} more)", n - 1),
        }
    }
}

/// A fault that has no place in any text.
impl From<Fault> for Problems {
    fn from(fault: Fault) -> Self {
        Self { sources: Sources::default(), list: vec![Problem { fault, at: None, other: None }] }
    }
}

/// A rig file that includes more files than this was not written by hand.
pub const MOST_INCLUDED: usize = 16;

/// Why a file cannot be included.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum IncludeFault {
    /// A path of no letters.
    #[error("expected the path of a file, found nothing")]
    NoPath,
    /// A path that begins elsewhere than at the file.
    #[error("expected a path that begins at the folder of this file, found `{0}`")]
    Absolute(String),
    /// A path that leads out of what belongs to the rig.
    #[error(
        "expected a file below the folder of the rig file or in its repository, found `{0}`, which leads out of it"
    )]
    Outside(String),
    /// No text could be read there; the message says why.
    #[error("{0}")]
    Unread(String),
    /// A file that includes itself, perhaps by way of others.
    #[error("expected no file that includes itself, found `{0}` again on the way to here")]
    Cycle(String),
    /// A file that is included already.
    #[error("expected each file to be included once, found `{0}` again")]
    Again(String),
    /// More files than anybody means.
    #[error("expected at most {MOST_INCLUDED} included files, found more")]
    TooMany,
    /// A text that lies in no folder.
    #[error("expected a whole rig, found one that includes other files")]
    NoFolder,
    /// A change that would include a file.
    #[error("expected `include` at the top of a rig file, found it in a change")]
    InChange,
}

impl IncludeFault {
    /// What the owner could write or do instead.
    pub(super) fn help(&self) -> Option<String> {
        let help = match self {
            Self::NoPath | Self::Absolute(_) => "for example: include = [\"tow/van.toml\"]",
            Self::NoFolder => "the files are found from the folder of the rig file: give its path",
            _ => return None,
        };
        Some(help.to_string())
    }
}

/// What is wrong.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum Fault {
    /// The text is not TOML.
    #[error("expected TOML: {0}")]
    Syntax(String),
    /// A key or a table that stands there already.
    #[error("expected `{found}` once, found it again")]
    Repeated {
        /// The key, or the table in its brackets.
        found: String,
        /// Whether it is a list of tables.
        is_list: bool,
    },
    /// Something follows a text's closing quote, as where an inch mark has closed it.
    #[error("expected the end of the line after the closing quote, found more")]
    AfterQuote,
    /// The quotes of a word processor.
    #[error("expected straight quotes, found curly ones")]
    CurlyQuotes,
    /// A brace that nothing closes: all that follows reads as part of it.
    #[error("expected a }} that closes this {{, found none")]
    Unclosed,
    /// Keys of one element of a list stand in the table around it.
    #[error("expected the line [[{list}]] above this one, found its keys alone")]
    NoHeading {
        /// The list.
        list: String,
    },
    /// No such key in this table.
    #[error("expected a key of {}, found `{found}`", table_name(.table))]
    UnknownKey {
        /// The table, empty for the top.
        table: String,
        /// The key as written.
        found: String,
        /// The nearest key.
        near: Option<String>,
    },
    /// A value of another type.
    #[error("expected {expected}, found {found}")]
    WrongType {
        /// What should stand there.
        expected: &'static str,
        /// What stands there.
        found: &'static str,
        /// What to write in its place.
        instead: Option<String>,
    },
    /// A number without its unit.
    #[error("expected {} with its unit, found the bare number {found}", .kind.name())]
    BareNumber {
        /// What should stand there.
        kind: Kind,
        /// The number as written.
        found: String,
    },
    /// A file that cannot be included.
    #[error(transparent)]
    Include(#[from] IncludeFault),
    /// A text that is no quantity.
    #[error(transparent)]
    Quantity(#[from] QuantityFault),
    /// A word that is not on the list.
    #[error("expected {}, found `{found}`", one_of(.words))]
    Choice {
        /// The list.
        words: &'static [&'static str],
        /// The word as written.
        found: String,
    },
    /// A value below zero.
    #[error("expected {what} of zero or more, found {found}")]
    Negative {
        /// What the value is.
        what: &'static str,
        /// The value as written.
        found: String,
    },
    /// A value of zero or less, or so near zero that it cannot be meant.
    #[error("expected {what} above zero, found {found}")]
    NotPositive {
        /// What the value is.
        what: &'static str,
        /// What the key means.
        meaning: &'static str,
        /// The value as written.
        found: String,
    },
    /// A value out of all proportion.
    #[error("expected {what} of at most {most}, found {found}")]
    TooLarge {
        /// What the value is.
        what: &'static str,
        /// The bound.
        most: String,
        /// The value as written.
        found: String,
    },
    /// A path to a word, a name or a list where a quantity is wanted.
    #[error("expected the path of a quantity, found `{0}`, which is none")]
    NotAQuantity(String),
    /// A list out of all proportion.
    #[error("expected at most {most} {list}, found {found}")]
    TooMany {
        /// The list.
        list: &'static str,
        /// The bound.
        most: usize,
        /// How many it has.
        found: usize,
    },
    /// Text that a terminal would act on.
    #[error("expected plain text, found a control character")]
    ControlCharacter,
    /// An id that a path could not name.
    #[error("expected an id of letters, digits, - and _, found `{0}`")]
    BadId(String),
    /// An id that paths use for every element.
    #[error("expected an id other than `all`, which names every element in a path")]
    ReservedId,
    /// An id that another part has.
    #[error("expected each id once, found `{0}` again")]
    DuplicateId(String),
    /// An id that no part has.
    #[error("expected the id of {what}, found `{found}`")]
    UnknownId {
        /// What should be named.
        what: &'static str,
        /// The id as written.
        found: String,
        /// The nearest id.
        near: Option<String>,
    },
    /// A pattern that no check id can match.
    #[error("expected a check id, or a prefix followed by *, found `{0}`")]
    BadCheckPattern(String),
    /// A pattern that names no check.
    #[error("expected a pattern that names a check, found `{found}`, which names none")]
    NoSuchCheck {
        /// The pattern as written.
        found: String,
        /// The nearest that names one.
        near: Option<String>,
    },
    /// One pattern in both lists.
    #[error("expected `{0}` either to count or to advise, found it in both lists")]
    CountsAndAdvises(String),

    /// The file does not say its format.
    #[error("expected `format = 1` at the top, found no format")]
    NoFormat,
    /// The file is of another format.
    #[error("expected format 1, found format {0}")]
    OtherFormat(u32),
    /// A text that is no day.
    #[error("expected a day as year, month and day, like 2026-06-01, found `{0}`")]
    NotADate(String),
    /// A text that is no week of a year.
    #[error("expected week and year in four digits, like 3224 for week 32 of 2024, found `{0}`")]
    NotADateCode(String),
    /// Tires that were made after the day of the trip.
    #[error("expected tires made before the trip on {date}, found the code {found}")]
    MadeAfterTrip {
        /// The code.
        found: String,
        /// The day of the trip.
        date: String,
    },
    /// A load index outside the table.
    #[error("expected a load index from {first} to {last}, found {0}", first = super::tires::FIRST_INDEX, last = super::tires::LAST_INDEX)]
    LoadIndex(u32),
    /// There are no axles.
    #[error("expected one or more [[trailer.axles]], found none")]
    NoAxles,
    /// There are too many axles.
    #[error("expected at most {most} axles, found {0}", most = super::setup::MAX_AXLES)]
    TooManyAxles(usize),
    /// An axle is not behind the one before it.
    #[error("expected axles front to rear, found axle {0} not behind axle {ahead}", ahead = .0 - 1)]
    AxleOrder(usize),
    /// Two keys say the same thing.
    #[error("expected one of {first} and {second}, found both")]
    Contradiction {
        /// The one.
        first: Key,
        /// The other.
        second: Key,
    },
    /// The trailer could not weigh anything.
    #[error("expected a capacity below the GVWR, found {capacity} of {gvwr}")]
    CapacityNotBelowGvwr {
        /// The capacity.
        capacity: String,
        /// The GVWR.
        gvwr: String,
    },
    /// A tongue weight beyond the weight.
    #[error("expected a tongue weight below the weight it is a part of, {whole}; found {found}")]
    TongueNotBelowWeight {
        /// The tongue weight.
        found: String,
        /// The weight.
        whole: String,
    },
    /// A reading without what was weighed, or without what the scale showed.
    #[error("expected `what` and `weight` in each reading, found no `{0}`")]
    WeighingLacks(&'static str),
    /// A reading that may be off by nobody knows how much.
    #[error("expected the scale's ± beside its reading, such as `{0} ± 20 lb`; found none")]
    WeighingWithoutBound(String),
    /// A reading of an axle that is not there.
    #[error("expected one of the trailer's axles, of which there are {axles}; found {found}")]
    WeighingOfNoAxle {
        /// What is read.
        found: &'static str,
        /// How many axles.
        axles: usize,
    },
    /// A reading of axles while a jack carries a part.
    #[error("expected axles that were weighed coupled: uncoupled, the jack carries an unknown part")]
    WeighingOnJack,
    /// A reading of a case that is not there.
    #[error("expected the name of a case, found {0}")]
    NoSuchCase(String),
    /// A reading with the boat moved off its trailer.
    #[error("expected the boat on its trailer while it is weighed, found it moved by {0}")]
    BoatOffTrailer(String),
    /// Not one weight for each axle.
    #[error("expected one weight for each axle, of which there are {axles}; found {found}")]
    AxlesWeighed {
        /// How many weights.
        found: usize,
        /// How many axles.
        axles: usize,
    },
    /// Axles heavier than the trailer they are part of.
    #[error("expected axles that weigh less than the trailer, {weight}; found {axles} together")]
    AxlesOutweighTrailer {
        /// The axles' weight.
        axles: String,
        /// The trailer's weight.
        weight: String,
    },
    /// The scales leave nothing for the boat.
    #[error("expected a gross trailer weight above the trailer's own and its tanks', {parts}; found {found}")]
    NothingLeftForBoat {
        /// The gross weight.
        found: String,
        /// The weight of trailer and tanks.
        parts: String,
    },
    /// An item outside the boat.
    #[error("expected no more from the centreline than half the beam, {half_beam}; found {found}")]
    BeyondBeam {
        /// The offset.
        found: String,
        /// Half the beam.
        half_beam: String,
    },
    /// A share over one.
    #[error("expected a share of at most 100 %, found {0}")]
    ShareOverOne(String),
    /// A band whose ends are the wrong way round.
    #[error("expected a band with min below max, found {min} to {max}")]
    BandUpsideDown {
        /// Its lower end.
        min: String,
        /// Its upper end.
        max: String,
    },
    /// A travel whose ends are the wrong way round.
    #[error("expected a travel from its forward end to its aft end, found them the other way round")]
    TravelUpsideDown,
    /// A travel with a bound.
    #[error("expected the end of a travel without ±, found one")]
    TravelWithBound,
    /// A tire's size says that it is of another kind.
    #[error("expected a {letters} tire, by the letters of its size; found {found}")]
    TireKind {
        /// The kind as stated.
        found: &'static str,
        /// The kind by the letters.
        letters: &'static str,
    },
    /// Tires come in pairs.
    #[error("expected 2 or 4 tires on an axle, found {0}")]
    TireCount(u32),
    /// A bow eye where there is no boat.
    #[error("expected a bow eye within the boat's length, {length}; found it {found} forward of the transom")]
    BowEyeAheadOfBoat {
        /// Its station.
        found: String,
        /// The boat's length.
        length: String,
    },
    /// An axle where there is no trailer.
    #[error("expected an axle within the trailer's length, {length}; found it {found} behind the ball")]
    AxleBehindTrailer {
        /// Its station.
        found: String,
        /// The trailer's length.
        length: String,
    },
    /// A jack behind the front axle.
    #[error("expected the jack ahead of the front axle, found it behind")]
    JackBehindAxle,
    /// No number, or one that nothing of a rig can be.
    #[error("expected a plain number above 0 and up to 1000, found `{0}`")]
    NotANumber(String),
    /// A number that multiplies no load.
    #[error("expected a plain number from 1 to 10, found {0}")]
    NoFactor(f64),
    /// Brakes of an axle that has none.
    #[error("expected no brakes on an axle that is said to have none, found them on axle {0}")]
    BrakesOnUnbraked(usize),
    /// Figures of brakes of which the file does not say what works them.
    #[error("expected trailer.brakes.kind beside this: surge, electric, electric-hydraulic or none")]
    BrakesOfNoKind,
    /// A value that is hardly meant, in a file that breaks a rule.
    #[error("expected {least} to {most}, found {found}, which is hardly what is meant")]
    Implausible {
        /// What the file states.
        found: String,
        /// The least that is plausible.
        least: String,
        /// The greatest.
        most: String,
    },
    /// The lightest trailer that an actuator is made for is heavier than the heaviest.
    #[error("expected least_gross below greatest_gross, found it above")]
    ActuatorUpsideDown,
    /// A winch behind what it draws forward.
    #[error(
        "expected the winch ahead of where the bow eye comes home, {eye} behind the ball; found it at {found}"
    )]
    WinchBehindEye {
        /// Where the drum is.
        found: String,
        /// Where the eye is.
        eye: String,
    },
    /// A flange that would hold no strap.
    #[error("expected a flange larger than the core, {core}; found {found}")]
    FlangeNotAboveCore {
        /// The flange's diameter.
        found: String,
        /// The core's.
        core: String,
    },
    /// A strap that does not reach the boat.
    #[error("expected a strap that reaches from the drum to the bow eye at the stop, {reach}; found {found}")]
    StrapTooShort {
        /// Its length.
        found: String,
        /// From drum to eye.
        reach: String,
    },
    /// A motor that draws no more, or runs no slower, under load than without.
    #[error("expected the rated {what} {way} the one without load, found it the other way round")]
    MotorUpsideDown {
        /// Current or speed.
        what: &'static str,
        /// Above or below.
        way: &'static str,
    },
    /// A working limit beyond the breaking strength.
    #[error("expected a working limit of at most the breaking strength, {breaking}; found {found}")]
    WorkingOverBreaking {
        /// The working limit.
        found: String,
        /// The breaking strength.
        breaking: String,
    },
    /// A tie-down of no length.
    #[error("expected the two ends of a tie-down apart, found those of number {0} in one place")]
    EndsCoincide(usize),
    /// Tie-downs that one entry cannot stand for.
    #[error("expected 1 or 2 tie-downs that are alike in one entry, found {0}")]
    TieDownCount(u32),
    /// Chains that no trailer has.
    #[error("expected 1 to 4 safety chains, found {0}")]
    ChainCount(u32),
    /// A board's size that is not sold.
    #[error("expected a nominal size of 2, 4, 6, 8, 10 or 12 by another such as 4x10, found `{0}`")]
    NotASize(String),
    /// Bolts that nobody would drill.
    #[error("expected 1 to 20 bolts at each bracket, found {0}")]
    BoltCount(u32),
    /// Bunks or fenders whose ends are the wrong way round.
    #[error("expected the forward end ahead of the aft end, found it behind")]
    EndsReversed,
    /// Two crossmembers at one place.
    #[error("expected each crossmember at a place of its own, found number {0} where another is")]
    SameStation(usize),
    /// Deadrises out of order, or two at one station.
    #[error(
        "expected deadrises from the transom forward, each at a station of its own, found number {0} out of order"
    )]
    DeadriseOrder(usize),
    /// A hull of which one section says nothing.
    #[error("expected two or more sections of the hull, found one")]
    OneSection,
    /// A hull whose aft end is not described.
    #[error("expected the first section at the transom, station 0, found it at {0}")]
    NoTransom(String),
    /// Sections out of order, or two at one station.
    #[error(
        "expected sections from the transom forward, each at a station of its own, found number {0} out of order"
    )]
    SectionOrder(usize),
    /// A section whose sheer is not its highest point.
    #[error("expected the sheer of section {number} no lower than its {lower}, found it below")]
    LowSheer {
        /// What it must not be lower than.
        lower: &'static str,
        /// Which section.
        number: usize,
    },
    /// A straight run that ends before it begins.
    #[error("expected the straight run to end forward of where support begins")]
    NoStraightRun,
    /// A bunk spaced out beyond the bottom.
    #[error("expected a deadrise below 60 deg, found {0}: that is no bottom for bunks")]
    TooSteep(String),
    /// A shift that leaves no trailer.
    #[error("expected the front axle to stay behind the ball{}, found the shift to carry it ahead", if *.jack { " and the jack" } else { "" })]
    ShiftedAxles {
        /// Whether the jack is the limit.
        jack: bool,
    },
    /// More weight left ashore than a case has aboard.
    #[error(
        "expected less weight left ashore than the boat weighs in the case \"{case}\", {boat}, found {found}"
    )]
    MoreAshoreThanAboard {
        /// The case's name.
        case: String,
        /// What the boat weighs there.
        boat: String,
        /// What is left ashore.
        found: String,
    },

    /// A ramp without runs.
    #[error("expected one or more runs in the profile of ramp {0}, found none")]
    NoRuns(usize),
    /// A vertical curve longer than a run between two breaks.
    #[error("expected a vertical curve shorter than every run between two breaks, found run {0} no longer")]
    EaseTooLong(usize),
    /// Water above the tow vehicle.
    #[error("expected the water below the level ground at the ramp's top, found it at or above")]
    WaterAboveTop,
    /// Two ramps or low points of one name.
    #[error("expected each name once, found `{0}` again")]
    DuplicateName(String),
    /// A low point with a name that ids of checks need.
    #[error("expected another name than `{0}`, which stands for something else in the ids of checks")]
    ReservedName(String),

    /// A change that is not `PATH=VALUE`.
    #[error("expected PATH=VALUE, found `{0}`")]
    NotAChange(String),
    /// A path that leads nowhere.
    #[error("expected a key of the rig file, found `{found}`")]
    UnknownPath {
        /// The path as written.
        found: String,
        /// The nearest path.
        near: Option<String>,
    },
    /// A path that names a table.
    #[error("expected a key with a value, found the table `{0}`")]
    PathIsTable(String),
    /// A list element that is not there.
    #[error("expected {}, found `{found}`", elements(list, *.count))]
    NoSuchElement {
        /// The list.
        list: String,
        /// How many it has.
        count: usize,
        /// The element as written.
        found: String,
        /// The nearest id.
        near: Option<String>,
    },
    /// A change by a difference to a value that is not there.
    #[error("expected a value in the file to add to, found none at {0}")]
    NothingToAddTo(Key),
    /// A change by a difference to something that has none.
    #[error("expected a length, a weight or a share to add to, found {0}")]
    CannotAdd(&'static str),
}

/// The words to choose from. A word without another stands where a table may: it says that there is none.
fn one_of(words: &[&str]) -> String {
    match words {
        [only] => format!("a table, or `{only}`"),
        _ => format!("one of {}", words.join(", ")),
    }
}

/// What may name an element of a list.
fn elements(list: &str, count: usize) -> String {
    match count {
        0 => format!("an element of {list}, of which the file has none"),
        n => format!("{list} 1 to {n}, an id or `all`"),
    }
}

fn table_name(path: &str) -> String {
    if path.is_empty() { "the rig file".to_string() } else { format!("[{path}]") }
}

impl Fault {
    /// What the owner could write or do instead.
    pub fn help(&self) -> Option<String> {
        let did_you_mean = |near: &str| format!("did you mean `{near}`?");
        match self {
            Self::UnknownKey { table, found, near } => Some(match near {
                Some(near) if near == found => format!("move `{near}` above the first heading of the file"),
                Some(near) => did_you_mean(near),
                None => format!("keys that fit: {}", inputs::children(&pattern(table)).join(", ")),
            }),
            Self::BareNumber { kind, .. } => Some(format!(
                "write for example {}; units that fit: {}",
                kind.example(),
                crate::quantity::unit::names(*kind).collect::<Vec<_>>().join(", ")
            )),
            Self::Quantity(fault) => fault.help(),
            Self::Include(fault) => fault.help(),
            Self::Unclosed => {
                Some("a table in one line ends with a brace: { rating = \"1760 lb\" }".to_string())
            }
            Self::NoHeading { list } => {
                Some(format!("each of them begins with the line [[{list}]], without # before it"))
            }
            Self::ChainCount(_) => Some(
                "leave [trailer.safety_chains] out where there are none, or state policy.rules".to_string(),
            ),
            Self::Implausible { .. } => {
                Some("correct this first: the other mistakes may follow from it".to_string())
            }
            Self::Syntax(message) => syntax_help(message).map(str::to_string),
            Self::CurlyQuotes => Some("write \" before the text and behind it".to_string()),
            Self::Repeated { found, is_list: true } => {
                let table = found.trim_matches(['[', ']']);
                Some(format!(
                    "what stands several times is written in double brackets each time: [[{table}]]"
                ))
            }
            Self::Repeated { found, .. } if found.starts_with('[') => {
                Some(format!("keep one [{}] with the keys of both", found.trim_matches(['[', ']'])))
            }
            Self::Repeated { .. } => Some("keep one of the two".to_string()),
            Self::WrongType { instead, .. } => instead.clone(),
            Self::AfterQuote => Some("a \" ends the text: write inches as in \"5 ft 10 in\"".to_string()),
            Self::Choice { words, found } => {
                let near = same_word(found, words).or_else(|| inputs::nearest(found, words.iter().copied()));
                near.map(did_you_mean).or_else(|| Some(format!("write for example \"{}\"", words.first()?)))
            }
            Self::UnknownId { near, .. }
            | Self::NoSuchCheck { near, .. }
            | Self::NoSuchElement { near, .. }
            | Self::UnknownPath { near, .. } => near.as_deref().map(did_you_mean),
            Self::NotPositive { meaning, .. } => Some(format!("the key gives {meaning}")),
            Self::NoAxles => Some(
                "each axle begins with the line [[trailer.axles]]; `bunkline new` prints a file to fill in"
                    .to_string(),
            ),
            Self::NoRuns(_) => {
                Some("for example: profile = [{ length = \"30 ft\", grade = \"12 %\" }]".to_string())
            }
            Self::NoFormat => Some("the first line of a rig file is: format = 1".to_string()),
            Self::TravelWithBound => Some(
                "state the least that the part can go; how exactly it is placed is the ± of its shift"
                    .to_string(),
            ),
            Self::NotAChange(_) => Some("for example: --set shift.boat=3in".to_string()),
            _ => None,
        }
    }
}

/// What to write where the parser of TOML says this.
fn syntax_help(message: &str) -> Option<&'static str> {
    const HELP: [(&str, &str); 7] = [
        (
            "must be quoted",
            "words and quantities stand in quotes: \"rear\", \"5 ft 10 in\"; true and false stand without",
        ),
        (
            "unexpected key or value",
            "a quantity stands in quotes, with a point and its unit: \"3.71 m\"; a remark begins with #",
        ),
        (
            "invalid boolean",
            "words stand in quotes: \"torsion\"; true and false stand without, in small letters",
        ),
        ("invalid unquoted key", "write = between a key and its value: gvwr = \"8200 lb\""),
        (
            "key with no value",
            "write = between a key and its value: gvwr = \"8200 lb\"; where a line begins with \"# or\", take both away",
        ),
        ("unclosed table", "a heading ends as it begins: [tow], [[ramps]]"),
        ("invalid basic string", "a text ends with the quote that it begins with: \"8200 lb\""),
    ];
    HELP.into_iter().find(|(part, _)| message.contains(part)).map(|(_, help)| help)
}

/// The word of a list that says the same as another one.
fn same_word<'a>(word: &str, words: &[&'a str]) -> Option<&'a str> {
    const SAME: [(&str, &str); 14] = [
        ("petrol", "gasoline"),
        ("gas", "gasoline"),
        ("fuel", "gasoline"),
        ("water", "fresh-water"),
        ("salt-water", "sea-water"),
        ("aluminum", "aluminium"),
        ("4wd", "all"),
        ("awd", "all"),
        ("4x4", "all"),
        ("rwd", "rear"),
        ("fwd", "front"),
        ("imperial", "us"),
        ("yes", "true"),
        ("no", "false"),
    ];
    let word = word.to_lowercase();
    let mut same = SAME.into_iter().filter(|(other, _)| *other == word);
    same.find_map(|(_, known)| words.iter().copied().find(|word| *word == known))
}

/// A table's path as the inputs name it: elements become `*`.
fn pattern(table: &str) -> String {
    let segments =
        table.split('.').map(|segment| if segment.parse::<usize>().is_ok() { "*" } else { segment });
    segments.collect::<Vec<_>>().join(".")
}
