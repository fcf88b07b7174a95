//! The trailer to look for, as one page for a seller: what each part must be good for, in both systems of units, and where
//! the boat would sit.

use super::document::{Document, Holds, Role, Table, Text};
use super::sections::{more_checks, worst_first};
use super::words::{self, SCREENING, listed};
use crate::fit::{Row, Verdict};
use crate::quantity::show::{UnitSystem, number, percent};
use crate::quantity::{Kind, Length, Quantity, Weight};
use crate::rig::Key;
use crate::study::spec::{Ask, Axles, Figure, Least, OWN, Sheet};

/// How many rows that no trailer changes are listed.
const MOST_UNMET: usize = 6;

/// The report of a sheet.
pub fn report(sheet: &Sheet, path: &str, units: UnitSystem) -> Document {
    let mut page = Page { sheet, units, document: Document::default() };
    page.opening(path);
    page.asks();
    page.axles();
    page.spots();
    page.unmet();
    page.assumed();
    page.document.paragraph(SCREENING);
    page.document
}

struct Page<'a> {
    sheet: &'a Sheet,
    units: UnitSystem,
    document: Document,
}

impl Page<'_> {
    fn opening(&mut self, path: &str) {
        let Sheet { axles, choices, capacity, boat, boat_at_most, reserve, rig, .. } = self.sheet;
        let [units, _] = self.systems();
        if let Some(question) = self.question() {
            let lead = Text::of(Role::NotChecked, "ASK FIRST");
            self.document.add_title(lead.then(&format!("  is a digit or a unit wrong? {question}")));
            self.document.paragraph(format!(
                "Look at the file first: {path}. The sheet below follows from it as it stands, and holds only if that is right."
            ));
        }
        let fails: Vec<&Row> = self.sheet.unmet.iter().filter(|row| row.verdict == Verdict::Fail).collect();
        let light = self.sheet.own_at_most.map(|own| {
            let own = format!("{:.0} {}", units.weight_number(own), units.weight_unit());
            format!("  Only a trailer of at most {own} fits:")
        });
        let lead = match light {
            Some(light) => Text::of(Role::Advise, "LIGHT ONLY").then(&light),
            None if !fails.is_empty() => {
                let worst = fails.iter().min_by(|one, other| worst_first(one, other));
                let fault = worst.map(|row| words::fault(row, units)).unwrap_or_default();
                let more = more_checks(fails.len() - 1, "fails", "fail");
                Text::of(Role::Fail, "NO TRAILER FITS")
                    .then(&format!(" as it is: {fault}.{more} Once that is put right:"))
            }
            None => Text::of(Role::Pass, "LOOK FOR").then(" "),
        };
        let rating = choices.iter().find(|choice| choice.count == *axles).map(|choice| choice.rating);
        let rating = rating.map(|rating| at_least(rating, units)).unwrap_or_default();
        let axles = if *axles == 1 { "one axle".to_string() } else { format!("{axles} axles") };
        let wanted = lead.then(&format!(
            " {axles} of {rating}, GVWR {} or more, {} of it for the boat",
            at_least(self.gross(), units),
            at_least(*capacity, units)
        ));
        if self.sheet.is_doubtful() {
            self.document.heading(wanted);
        } else {
            self.document.add_title(wanted);
        }
        let setup = rig.proposed();
        let name = setup.boat.name.as_deref().unwrap_or("the boat");
        self.document.paragraph(format!(
            "For {name} in {path}: {} at her heaviest{}. Ratings are the least; {} of each is left free, at every place of the axles below.",
            units.weight(*boat),
            if boat_at_most > boat {
                format!(", up to {} by the ± in the file", at_least(*boat_at_most, units))
            } else {
                String::new()
            },
            percent(*reserve)
        ));
    }

    /// The gross rating to ask for: the usual trailer's, or the light one's where only that fits.
    fn gross(&self) -> Weight {
        let [light, usual, _] = self.sheet.gross;
        if self.sheet.own_at_most.is_some() { light } else { usual }
    }

    /// What in the file is more likely wrong than right, if anything is.
    fn question(&self) -> Option<String> {
        let Sheet { implausible, beyond_sold, boat, .. } = self.sheet;
        let units = self.units;
        let mut said: Vec<String> =
            implausible.iter().map(|value| words::implausible(value, units)).collect();
        if said.is_empty() && !beyond_sold.is_empty() {
            let parts: Vec<String> = beyond_sold.iter().map(|figure| part(*figure).to_string()).collect();
            said.push(format!(
                "the boat weighs {}, and asks for more than is usually sold of {}",
                units.weight(*boat),
                listed(&parts)
            ));
        }
        (!said.is_empty()).then(|| words::some_of(&said))
    }

    /// The reader's system of units, and the other one.
    fn systems(&self) -> [UnitSystem; 2] {
        match self.units {
            UnitSystem::Us => [UnitSystem::Us, UnitSystem::Metric],
            UnitSystem::Metric => [UnitSystem::Metric, UnitSystem::Us],
        }
    }

    fn asks(&mut self) {
        let sheet = self.sheet;
        let systems = self.systems();
        let mut table = Table::new([
            (Holds::Words, ""),
            (Holds::Numbers, "ask for"),
            (Holds::Numbers, ""),
            (Holds::Words, "asked by"),
        ]);
        let mut row = |what: &str, of: &dyn Fn(UnitSystem) -> String, by: &str| {
            let [own, other] = systems.map(of);
            table.rows.push(vec![what.into(), own.into(), other.into(), Text::of(Role::Key, by).into()]);
        };
        let ask = |figure: Figure| sheet.asks.iter().find(|ask| ask.figure == figure);
        row("GVWR", &|units| at_least(self.gross(), units), "trailer-gvwr");
        row("GVWR less its own weight", &|units| at_least(sheet.capacity, units), "the boat");
        let tires = 2 * sheet.axles;
        for (figure, what) in [
            (Figure::Axle, format!("Axles with springs, {}, each", sheet.axles)),
            (Figure::Tire, format!("Tires and wheels, {tires}, each")),
            (Figure::Coupler, "Coupler".to_string()),
            (Figure::CouplerTongue, "Coupler, on the tongue".to_string()),
        ] {
            if let Some(ask) = ask(figure) {
                row(&what, &|units| least(ask, units), &ask.by);
            }
            let index = sheet.choices.iter().find(|choice| choice.count == sheet.axles);
            let index = index.and_then(|choice| choice.tire_index).filter(|_| figure == Figure::Tire);
            if let Some(index) = index {
                row(". load index of a tire, at least", &|_| index.to_string(), "the rating");
            }
        }
        if let Some(ball) = sheet.ball {
            row("Coupler for a ball of", &|units| units.distance(ball), "ball-size");
        }
        let brakes = match sheet.axles {
            // Below what the rule names no row asks for any.
            _ if !sheet.asks_for_brakes() => "Brakes: as local law asks",
            1 => "Brakes on the axle",
            2 => "Brakes on both axles",
            _ => "Brakes on every axle",
        };
        row(brakes, &|_| String::new(), "brakes-required");
        for (figure, what) in [
            (Figure::Chain, "Safety chains, two, each breaks at"),
            (Figure::Jack, "Tongue jack"),
            (Figure::Winch, "Winch, on the layer that is wound"),
            (Figure::Strap, "Winch strap, working limit"),
            (Figure::Tongue, "Tongue, section modulus, steel"),
        ] {
            if let Some(ask) = ask(figure) {
                row(what, &|units| least(ask, units), &ask.by);
            }
        }
        if let Some(bunks) = sheet.bunks {
            row("Bunks, each long", &|units| units.rough_length(bunks.length), "bunk-contact");
            row("Bunks, outer edges apart, about", &|units| units.rough_length(bunks.spacing), "usual");
        }
        if let Some(level_at) = sheet.level_at {
            row("Frame level at a ball height of", &|units| units.distance(level_at), "your ball");
        }
        self.document.table(table);
    }

    /// What another number of axles asks for.
    fn axles(&mut self) {
        self.document.heading("By number of axles: ratings, and what the fullest axle and tire carry");
        let mut table = Table::new([
            (Holds::Numbers, "axles"),
            (Holds::Numbers, "rated"),
            (Holds::Numbers, "tire"),
            (Holds::Numbers, "index"),
            (Holds::Numbers, "level"),
            (Holds::Numbers, "a tire"),
            (Holds::Numbers, "rear one lifted"),
            (Holds::Words, ""),
        ]);
        let units = self.units;
        let is_past = |choice: &Axles| choice.lifted.is_some_and(|lifted| lifted > choice.rating);
        for choice in &self.sheet.choices {
            let unknown = if choice.lifted_lacks.is_empty() { "-" } else { "not checked" };
            let lifted = choice.lifted.map_or(unknown.to_string(), |lifted| {
                let star = if is_past(choice) { "*" } else { "" };
                format!("{}, {}{star}", units.weight(lifted), words::used(lifted / choice.rating))
            });
            let chosen = if choice.count == self.sheet.axles { "chosen" } else { "" };
            table.rows.push(vec![
                choice.count.to_string().into(),
                at_least(choice.rating, units).into(),
                at_least(choice.tire, units).into(),
                choice.tire_index.map_or("-".to_string(), |index| index.to_string()).into(),
                units.weight(choice.load).into(),
                units.weight(choice.on_tire).into(),
                lifted.into(),
                chosen.into(),
            ]);
        }
        self.document.table(table);
        if self.sheet.choices.iter().any(is_past) {
            self.document.paragraph("* Past its rating, and yet it holds: an axle is made for road bumps of twice its rating, so at walking pace over a ramp's head it may carry twice (common practice); check advises past the rating and fails past twice. Two axles of three must carry it all.");
        }
        let mut lacks: Vec<Key> = Vec::new();
        for key in self.sheet.choices.iter().flat_map(|choice| &choice.lifted_lacks) {
            if !lacks.contains(key) {
                lacks.push(*key);
            }
        }
        let lacks = words::keys(&lacks);
        if !lacks.is_empty() {
            self.document.paragraph(format!(
                "With the rear axle lifted the others may need more than is asked for here: to have it computed fill in {}.",
                listed(&lacks)
            ));
        }
    }

    fn spots(&mut self) {
        self.document.heading("Where the boat sits, for each place of the axles behind the ball");
        let mut table = Table::new([
            (Holds::Numbers, "axles' middle"),
            (Holds::Numbers, "bow stop"),
            (Holds::Numbers, "transom"),
            (Holds::Words, "the boat may sit off by, as stated"),
        ]);
        let units = self.units;
        for spot in &self.sheet.spots {
            let [forward, aft] = spot.window;
            let off = if forward.si() <= 0.0 && aft.si() >= 0.0 {
                format!("{} forward to {} aft", down(-forward, units), down(aft, units))
            } else {
                "nowhere: the cases ask for different places".to_string()
            };
            let cells = [spot.axles, spot.bow_stop, spot.transom].map(|length| units.length(length));
            table.rows.push(cells.map(Into::into).into_iter().chain([off.into()]).collect());
        }
        self.document.table(table);
    }

    /// What a trailer cannot mend.
    fn unmet(&mut self) {
        let unmet = &self.sheet.unmet;
        if unmet.is_empty() {
            return;
        }
        let units = self.units;
        self.document.heading(match self.sheet.own_at_most {
            Some(_) => format!("What a trailer of {} does not hold", units.weight(self.sheet.own[1])),
            None => "What no trailer changes".to_string(),
        });
        let item = |row: &Row| match row.verdict {
            Verdict::NotChecked => Text::of(Role::Key, &row.id())
                .then(&format!(" is not checked: fill in {}", listed(&words::keys(&row.missing)))),
            Verdict::Fail => {
                Text::of(Role::Key, &row.id()).then(&format!(" fails: {}", words::fault(row, units)))
            }
            _ => Text::of(Role::Key, &row.id()).then(" is unsure: it may fail within what is uncertain"),
        };
        let more = unmet.len().saturating_sub(MOST_UNMET);
        let more = (more > 0).then(|| Text::from(format!("and {more} more")));
        self.document.list(unmet.iter().take(MOST_UNMET).map(item).chain(more).collect::<Vec<_>>());
    }

    fn assumed(&mut self) {
        let sheet = self.sheet;
        let [units, _] = self.systems();
        let [light, usual, heavy] = sheet.own.map(|own| units.weight(own));
        let [light_gross, _, heavy_gross] = sheet.gross.map(|gross| at_least(gross, units));
        let shares = OWN.map(|own| format!("{:.0}", own * 100.0));
        let trailer = &sheet.rig.proposed().trailer;
        let ball = trailer.level_ball_height.filter(|_| sheet.level_at.is_none());
        let ball = ball.map(|height| format!(" The ball stands at {}.", units.distance(height)));
        let sizes_winch = sheet.asks.iter().any(|ask| ask.figure == Figure::Winch);
        let friction = trailer.bunks.friction.filter(|_| sizes_winch);
        let friction = friction.map(|share| {
            let share = percent(share);
            format!(
                " Winch and strap pull against a friction of {share} on the bunks; dry ones ask for more."
            )
        });
        let (ball, friction) = (ball.unwrap_or_default(), friction.unwrap_or_default());
        let ramp = match sheet.rig.proposed().ramps.len() {
            0 => " No ramp in the file: winch and strap are not sized.",
            _ => "",
        };
        self.document.paragraph(format!(
            "Assumed, common practice, no source: the trailer weighs {usual}, {} % of the boat, and {light} to {heavy} ({} to {} %) is asked for everywhere; GVWR {light_gross} for the light one, {heavy_gross} for the heavy one. A tenth of it rests on the tongue, the tongue is held at the bow stop, axles stand {} apart.{ball} The bunks' boards follow from `bunkline bunks`, once a trailer's crossmembers are known. Brakes, lights, tires' age and rust are not on this sheet.{friction}{ramp}",
            shares[1],
            shares[0],
            shares[2],
            match units {
                UnitSystem::Us => "34 in",
                UnitSystem::Metric => "860 mm",
            },
        ));
    }
}

/// A part, as a sentence names it.
fn part(figure: Figure) -> &'static str {
    match figure {
        Figure::Gross => "the gross rating",
        Figure::Axle => "an axle",
        Figure::Tire => "a tire",
        Figure::Coupler => "a coupler",
        Figure::CouplerTongue => "a coupler on the tongue",
        Figure::Chain => "a chain",
        Figure::Jack => "a jack",
        Figure::Winch => "a winch",
        Figure::Strap => "a winch strap",
        Figure::Tongue => "a tongue",
    }
}

/// What is asked for, in one system of units.
fn least(ask: &Ask, units: UnitSystem) -> String {
    match ask.least {
        Least::Weight(weight) => at_least(weight, units),
        Least::Modulus(modulus) => {
            let (value, unit) = number(modulus.si(), Kind::SectionModulus, units);
            let parts = if units == UnitSystem::Us { 10.0 } else { 1.0 };
            // A hair over a whole step is rounding.
            format!("{} {}", (value * parts - 1e-6).ceil() / parts, unit.unwrap_or_default())
        }
    }
}

/// A weight in whole units, rounded up: it is asked for.
fn at_least(weight: Weight, units: UnitSystem) -> String {
    // A hair over a whole unit is rounding.
    format!("{:.0} {}", (units.weight_number(weight) - 1e-6).ceil(), units.weight_unit())
}

/// A distance in whole inches, or in steps of 10 mm, rounded down: it is allowed.
fn down(length: Length, units: UnitSystem) -> String {
    match units {
        UnitSystem::Us => format!("{:.0} in", units.length_number(length).floor()),
        UnitSystem::Metric => format!("{:.0} mm", (units.length_number(length) / 10.0).floor() * 10.0),
    }
}
