//! A trailer as a seller might have it, written as a rig file.

use super::{Figure, Given};
use crate::quantity::show::{UnitSystem, exact};
use crate::quantity::unit::INCH;
use crate::quantity::{Kind, Length, Quantity, Weight};
use std::collections::BTreeMap;
use std::fmt::Write;

/// What a trailer's own weight puts on its tongue, as a share. Common practice, no source: 5 to 15 %.
pub(super) const OWN_TONGUE: f64 = 0.10;
/// Between two axles. Common practice, no source.
const SPACING: [f64; 2] = [34.0 * INCH, 0.86];
/// Hub to ground, loaded: of the usual 15 in wheel. Common practice, no source.
const RADIUS: [f64; 2] = [13.0 * INCH, 0.33];
/// Between the middles of the wheels to either side. Common practice, no source.
const TRACK: [f64; 2] = [84.0 * INCH, 2.1];
/// Keel above ground. Common practice, no source.
const KEEL: [f64; 2] = [24.0 * INCH, 0.61];
/// Ball height where the file gives none. Common practice, no source.
const BALL: [f64; 2] = [18.0 * INCH, 0.45];

/// A trailer in numbers, SI.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Candidate {
    pub units: UnitSystem,
    pub axles: usize,
    /// Its own weight.
    pub own: f64,
    /// The middle of its axles behind the ball.
    pub centre: f64,
    pub bow_stop: f64,
    /// What each of its parts is good for.
    pub figures: BTreeMap<Figure, f64>,
}

impl Candidate {
    /// Its text, for the boat that it is to carry.
    pub fn text(&self, given: &Given) -> String {
        let weight = |si: f64| self.exact(si, Kind::Weight);
        let figure = |figure: Figure| weight(self.figures.get(&figure).copied().unwrap_or_default());
        let cg = self.tape(self.centre * (1.0 - OWN_TONGUE));
        let ball = given.ball_height.unwrap_or_else(|| self.usual(BALL));
        let mut text = String::from("format = 1\n[trailer]\n");
        let mut line = |key: &str, value: &str| {
            let _ = writeln!(text, "{key} = \"{value}\"");
        };
        line("weight", &weight(self.own));
        line("gvwr", &figure(Figure::Gross));
        line("cg", &self.length(cg));
        line("bow_stop", &self.length(self.bow_stop));
        line("keel_height", &self.length(self.usual(KEEL)));
        line("level_ball_height", &self.exact(ball, Kind::Length));
        line("track", &self.length(self.usual(TRACK)));
        line("suspension.kind", if self.axles > 1 { "leaf-equalized" } else { "leaf-separate" });
        line("coupler.rating", &figure(Figure::Coupler));
        line("coupler.tongue_rating", &figure(Figure::CouplerTongue));
        // What is there is taken as it is, in whatever units.
        if given.hangs_on_ball {
            let ball_size = given.ball_size(self.figures.get(&Figure::Coupler).copied(), self.units);
            line("coupler.ball_size", &self.exact(ball_size, Kind::Length));
        }
        line("safety_chains.breaking", &figure(Figure::Chain));
        line("jack.rating", &figure(Figure::Jack));
        line(
            "tongue.section_modulus",
            &self.exact(self.figures.get(&Figure::Tongue).copied().unwrap_or_default(), Kind::SectionModulus),
        );
        line("tongue.held_from", &self.length(self.bow_stop));
        if given.has_ramps {
            line("winch.rating", &figure(Figure::Winch));
            line("winch.strap.working", &figure(Figure::Strap));
        }
        if let Some(bunks) = given.bunks(self) {
            line("bunks.forward_end", &self.length(bunks.forward));
            line("bunks.aft_end", &self.length(bunks.aft));
            line("bunks.half_spacing", &self.length(bunks.half_spacing));
        }
        let _ = writeln!(text, "safety_chains.count = 2");
        for axle in 0..self.axles {
            let _ = write!(
                text,
                "[[trailer.axles]]\nstation = \"{}\"\nrating = \"{}\"\nbraked = true\ntires = {{ rating = \"{}\", radius = \"{}\" }}\nwheels = {{ rating = \"{}\" }}\n",
                self.length(self.station(axle)),
                figure(Figure::Axle),
                figure(Figure::Tire),
                self.length(self.usual(RADIUS)),
                figure(Figure::Tire),
            );
        }
        text
    }

    /// Where an axle stands behind the ball.
    fn station(&self, axle: usize) -> f64 {
        let from_middle = axle as f64 - (self.axles - 1) as f64 / 2.0;
        self.centre + from_middle * self.usual(SPACING)
    }

    /// The ball to the transom.
    pub fn transom(&self, given: &Given) -> Length {
        Length::from_si(self.bow_stop + given.bow_eye)
    }

    /// A value that is usual, in the units of the file.
    fn usual(&self, [us, metric]: [f64; 2]) -> f64 {
        match self.units {
            UnitSystem::Us => us,
            UnitSystem::Metric => metric,
        }
    }

    /// A length as a tape shows it: to the half inch or the centimetre.
    pub fn tape(&self, length: f64) -> f64 {
        let grain = self.usual([INCH / 2.0, 0.01]);
        (length / grain).round() * grain
    }

    fn length(&self, si: f64) -> String {
        self.units.length(Length::from_si(si))
    }

    /// The same trailer with its bow stop at another place.
    pub fn stopped_at(&self, bow_stop: f64) -> Self {
        Self { bow_stop, ..self.clone() }
    }

    fn exact(&self, si: f64, kind: Kind) -> String {
        // What is sold comes in whole units, and what a file states can be stated again.
        exact(si, kind, self.units).unwrap_or_else(|| self.units.weight(Weight::from_si(si)))
    }
}
