//! `bunkline draw`: a rig from one side or another, to scale.

use super::Outcome;
use super::rigs::{self, Asked, Trouble};
use super::stream::Streams;
use crate::fit::{self, Assessment, Drawing, Known, Missing, View};
use crate::quantity::show::UnitSystem;
use crate::report::document::Picture;
use crate::report::figure::{self, Names};
use crate::rig::Rig;
use crate::study::uncertainty;
use clap::{Args, ValueEnum};

/// Draw a rig to scale, as SVG
#[derive(Args)]
#[command(
    after_help = "Example:\n  bunkline draw rig.toml > rig.svg\n  bunkline draw rig.toml --what bunks > bunks.svg"
)]
pub(super) struct Draw {
    /// Rig file; - is standard input
    #[arg(value_name = "FILE")]
    file: String,
    /// What to draw
    #[arg(long, value_name = "VIEW", default_value = "side")]
    what: What,
    #[command(flatten)]
    asked: Asked,
}

/// A view, as it is asked for.
#[derive(Clone, Copy, ValueEnum)]
enum What {
    /// From the side, with the frame level
    Side,
    /// From above
    Top,
    /// Across, at the crossmember that the keel clears least
    Section,
    /// Where the ramp asks most of an axle
    Ramp,
    /// In the water, where she comes off the trailer
    Launch,
    /// A bunk as it is cut, with its bevel at full size
    Bunks,
}

impl What {
    fn view(self) -> View {
        match self {
            Self::Side => View::Side,
            Self::Top => View::Top,
            Self::Section => View::Section,
            Self::Ramp => View::Ramp,
            Self::Launch => View::Launch,
            Self::Bunks => View::Bunks,
        }
    }

    /// Why nothing of it can be drawn.
    fn undrawn(self, Missing(keys): &Missing) -> Trouble {
        let keys: Vec<String> = keys.iter().map(ToString::to_string).collect();
        let why = match (self, keys.is_empty()) {
            (_, false) => format!("expected {} in the file, found none", keys.join(", ")),
            (Self::Bunks, _) => {
                "expected a bevel that leaves wood at the bunk's inner edge, found none".to_string()
            }
            (Self::Section, _) => {
                "expected a boat that lies on its bunks, found one that does not".to_string()
            }
            (Self::Launch, _) => {
                "expected a boat that comes off her trailer on the ramp, found none".to_string()
            }
            _ => "expected a trailer that rests on its wheels all over the ramp, found one that does not"
                .to_string(),
        };
        Trouble::Plain(why)
    }
}

/// A rig, as it is or after a plan, from each side of which something can be drawn.
pub(super) fn pictures(
    rig: &Rig,
    assessment: &Assessment,
    is_planned: bool,
    views: &[View],
    units: UnitSystem,
) -> Vec<Picture> {
    let picture = |view: &View| {
        let drawings = drawings(*view, rig, assessment).ok()?;
        let names = if is_planned { Names::Words } else { Names::Keys };
        let svg = figure::drawing(rig.proposed(), &drawings, names, units);
        Some(Picture { caption: figure::caption(*view, is_planned).into(), svg })
    };
    views.iter().filter_map(picture).collect()
}

/// What a view shows, with how far the centre of gravity may lie from where it is by what is stated with ±.
fn drawings(view: View, rig: &Rig, assessment: &Assessment) -> Known<Vec<Drawing>> {
    let mut drawings = Drawing::of(view, rig, assessment)?;
    for drawing in drawings.iter_mut().filter(|drawing| drawing.view == View::Side && drawing.cg.is_some()) {
        drawing.cg_within = uncertainty::centre(rig);
    }
    Ok(drawings)
}

impl Draw {
    pub fn run(&self, streams: &mut Streams) -> Outcome {
        let outcome = self.draw(streams);
        rigs::outcome(outcome, &self.file, streams)
    }

    fn draw(&self, streams: &mut Streams) -> Result<Outcome, Trouble> {
        let rig = rigs::rig(&self.file, &self.asked.changes)?;
        let assessment = fit::assess(&rig).map_err(|why| Trouble::Plain(why.to_string()))?;
        let drawings =
            drawings(self.what.view(), &rig, &assessment).map_err(|missing| self.what.undrawn(&missing))?;
        let units = self.asked.units(&rig);
        streams.print(&figure::drawing(rig.proposed(), &drawings, Names::Keys, units));
        Ok(Outcome::Done)
    }
}
