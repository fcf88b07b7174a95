//! `bunkline draw`: a rig from the side, to scale.

use super::Outcome;
use super::rigs::{self, Asked, Trouble};
use super::stream::Streams;
use crate::fit::{self, Drawing};
use crate::report::figure;
use clap::Args;

/// Draw a rig from the side, to scale, as SVG
#[derive(Args)]
#[command(after_help = "Example:\n  bunkline draw rig.toml > rig.svg")]
pub(super) struct Draw {
    /// Rig file; - is standard input
    #[arg(value_name = "FILE")]
    file: String,
    #[command(flatten)]
    asked: Asked,
}

impl Draw {
    pub fn run(&self, streams: &mut Streams) -> Outcome {
        let outcome = self.draw(streams);
        rigs::outcome(outcome, &self.file, streams)
    }

    fn draw(&self, streams: &mut Streams) -> Result<Outcome, Trouble> {
        let rig = rigs::rig(&self.file, &self.asked.changes)?;
        let assessment = fit::assess(&rig).map_err(|why| Trouble::Plain(why.to_string()))?;
        let drawing = Drawing::side(rig.proposed(), &assessment);
        streams.print(&figure::side(rig.proposed(), &drawing, self.asked.units(&rig)));
        Ok(Outcome::Done)
    }
}
