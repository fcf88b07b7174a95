//! `bunkline spec`: the trailer to look for, for a boat that has none.

use super::format::{self, Format, one_of};
use super::rigs::{self, Asked, RigFile, Trouble};
use super::stream::Streams;
use super::{Outcome, threads};
use crate::fit::Verdict;
use crate::quantity::{Quantity, Share, parse};
use crate::report::{json, spec};
use crate::study::spec::{NoSheet, Wanted};
use clap::Args;

/// Say which trailer to look for: what each part must be good for, and where the boat would sit
///
/// Needs a boat whose weights are listed, and what is to tow it; a trailer in the file is not read. What the sheet asks for
/// was assessed whole, at the worst of every ± and at each place of the axles that it lists. Exits 1 when something fails that
/// no trailer changes, such as the tow vehicle's rating, or when a figure of the boat must be looked at first.
#[derive(Args)]
#[command(
    after_help = "Examples:\n  bunkline spec boat.toml\n  bunkline spec boat.toml --reserve 20% --axles 3"
)]
pub(super) struct Spec {
    /// Rig file of the boat; - is standard input
    #[arg(value_name = "FILE")]
    file: String,
    /// The share of every rating that is left free, instead of the policy's thin margin
    #[arg(long, value_name = "SHARE", value_parser = reserve)]
    reserve: Option<Share>,
    /// How many axles, instead of as few as carry it
    #[arg(long, value_name = "N", value_parser = clap::value_parser!(u8).range(1..=3))]
    axles: Option<u8>,
    /// How to report
    #[arg(long, value_name = "FORM", default_value = "text", value_parser = one_of(&[Format::Text, Format::Json, Format::Html]))]
    format: Format,
    #[command(flatten)]
    asked: Asked,
}

/// A share of a rating that can be left free.
fn reserve(text: &str) -> Result<Share, String> {
    let share = parse::<Share>(text).map_err(|error| error.to_string())?.value;
    if (0.0..=0.5).contains(&share.si()) {
        Ok(share)
    } else {
        Err("expected a share of 0 % to 50 %".to_string())
    }
}

impl Spec {
    pub fn run(&self, streams: &mut Streams) -> Outcome {
        let outcome = self.report(streams);
        rigs::outcome(outcome, &self.file, streams)
    }

    fn report(&self, streams: &mut Streams) -> Result<Outcome, Trouble> {
        let of_trailer =
            |change: &&String| OF_TRAILER.iter().any(|table| change.trim_start().starts_with(table));
        if let Some(change) = self.asked.changes.iter().find(of_trailer) {
            let change = change.escape_debug();
            return Err(Trouble::Usage(format!(
                "expected a change to the boat or what tows it, found `{change}`"
            )));
        }
        let file = RigFile::read(&self.file)?;
        let wanted = Wanted {
            reserve: self.reserve,
            axles: self.axles.map(usize::from),
            units: self.asked.units_asked(),
        };
        let sheet =
            threads::compute(|| crate::study::spec::spec(&file.sources, &self.asked.changes, &wanted));
        let sheet = sheet.map_err(|error| match error {
            NoSheet::Problems(problems) => Trouble::Mistaken(problems),
            other => Trouble::Plain(other.to_string()),
        })?;
        let units = self.asked.units(&sheet.rig);
        if self.format == Format::Json {
            let document = json::sheet(&sheet, &self.file, units);
            streams.print(&(document.map_err(|error| Trouble::Plain(error.to_string()))? + "\n"));
        } else {
            format::print(&spec::report(&sheet, &self.file, units), self.format, streams);
        }
        let fails = sheet.unmet.iter().any(|row| row.verdict == Verdict::Fail);
        Ok(if fails || sheet.is_doubtful() { Outcome::Fails } else { Outcome::Done })
    }
}

/// What a sheet is about is not changed by hand.
const OF_TRAILER: [&str; 3] = ["trailer.", "shift.", "travel."];
