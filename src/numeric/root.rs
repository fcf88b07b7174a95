//! Where a function of one variable crosses zero, or a condition stops holding.
//!
//! Every search keeps a bracket about the answer, so it ends whatever the function does.

/// A bracket about a root of a function that rises there, as far as it is known.
#[derive(Debug, Clone, Copy)]
pub struct Bracket {
    low: f64,
    high: f64,
    /// The size of the function at the last look, and whether that look at least halved it.
    size: f64,
    halved: bool,
}

impl Bracket {
    /// From a place where the function is below zero to one where it is above; either may be infinite.
    pub fn new(low: f64, high: f64) -> Self {
        Self { low, high, size: f64::INFINITY, halved: true }
    }

    /// Narrows the bracket by the function's value at a place.
    pub fn look(&mut self, x: f64, value: f64) {
        *(if value < 0.0 { &mut self.low } else { &mut self.high }) = x;
        self.halved = value.abs() <= self.size / 2.0;
        self.size = value.abs();
    }

    /// The greatest place known to lie below the root; minus infinity while there is none.
    pub fn low(&self) -> f64 {
        self.low
    }

    /// The least place known to lie above the root; infinite while there is none.
    pub fn high(&self) -> f64 {
        self.high
    }

    /// How wide it is; infinite while an end is missing.
    pub fn width(&self) -> f64 {
        self.high - self.low
    }

    /// Whether the last look at least halved the function.
    pub fn halved(&self) -> bool {
        self.halved
    }

    /// The next place to look at: the guess if it lies inside and the last look at least halved the function, else
    /// the middle. So the bracket or the function is halved at each look.
    ///
    /// None without such a guess while an end is missing.
    pub fn next(&self, guess: Option<f64>) -> Option<f64> {
        let inside = guess.filter(|guess| self.halved && *guess > self.low && *guess < self.high);
        inside.or_else(|| self.width().is_finite().then(|| f64::midpoint(self.low, self.high)))
    }
}

/// Halves the way from where a condition holds to where it does not, until they are this close; returns both.
///
/// # Errors
/// What the condition returns.
pub fn halve<E>(
    mut holds: f64,
    mut fails: f64,
    within: f64,
    mut condition: impl FnMut(f64) -> Result<bool, E>,
) -> Result<(f64, f64), E> {
    while (fails - holds).abs() > within {
        let middle = f64::midpoint(holds, fails);
        if middle == holds || middle == fails {
            break;
        }
        *(if condition(middle)? { &mut holds } else { &mut fails }) = middle;
    }
    Ok((holds, fails))
}

/// The place nearest to where a function crosses zero, on the side where it is at least zero.
///
/// `inside` and `outside` are a place and the value there: at least zero at the first, less at the second.
///
/// Interpolated through the last three places, or two, and projected toward the middle so far that it never takes more than
/// six looks more than halving does. Sources: the projection is that of the ITP method, Oliveira and Takahashi, ACM
/// Transactions on Mathematical Software 47 (2021), the interpolation that of Brent's, both from memory; the tests compare it
/// with known roots.
pub fn edge(
    mut inside: (f64, f64),
    mut outside: (f64, f64),
    within: f64,
    mut function: impl FnMut(f64) -> f64,
) -> f64 {
    let width = |inside: (f64, f64), outside: (f64, f64)| (outside.0 - inside.0).abs();
    let whole = width(inside, outside);
    // Half the bracket that halving would have left after each look, and looks to spare.
    let mut half = within / 2.0;
    while half < whole {
        half *= 2.0;
    }
    // Two are spare by this start.
    half *= f64::from(1 << (TO_SPARE - 2));
    let mut before = None;
    while width(inside, outside) > within {
        let middle = f64::midpoint(inside.0, outside.0);
        let (low, high) = (inside.0.min(outside.0), inside.0.max(outside.0));
        let is_between = |x: &f64| low < *x && *x < high;
        let straight = (outside.0 * inside.1 - inside.0 * outside.1) / (inside.1 - outside.1);
        let curved = before.map(|before| inverse_quadratic(inside, outside, before));
        let guesses = curved.into_iter().chain([straight]);
        let guess = guesses.into_iter().find(is_between).unwrap_or(middle);
        // Past a root that lies next to an end, so that the bracket closes.
        let least = (0.9 * within).min((high - low) / 2.0);
        let guess = guess.clamp(low + least, (high - least).max(low + least));
        // Projected: not so far from the middle that halving could no longer keep up.
        let reach = (half - (high - low) / 2.0).max(0.0);
        let x = guess.clamp(middle - reach, middle + reach);
        half /= 2.0;
        if x == inside.0 || x == outside.0 {
            break;
        }
        let value = function(x);
        let end = if value >= 0.0 { &mut inside } else { &mut outside };
        before = Some(std::mem::replace(end, (x, value)));
    }
    inside.0
}

/// So many looks more than halving takes are allowed to [`edge`]: where a function bends at its root the guesses are better than they
/// look for a while.
const TO_SPARE: u32 = 6;

/// Where the parabola on its side through three places crosses zero; no number where two have one value.
fn inverse_quadratic((a, fa): (f64, f64), (b, fb): (f64, f64), (c, fc): (f64, f64)) -> f64 {
    a * fb * fc / ((fa - fb) * (fa - fc))
        + b * fa * fc / ((fb - fa) * (fb - fc))
        + c * fa * fb / ((fc - fa) * (fc - fb))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A function, and how many looks it may take.
    type Curve = (fn(f64) -> f64, u32);

    #[test]
    fn an_edge_takes_few_looks_more_than_halving_and_mostly_far_fewer() {
        // 2 / 1e-7 is below 2^25.
        let most = 25 + TO_SPARE;
        let curves: [Curve; 6] = [
            (|x| x - 0.3, 3),
            (|x| x + 0.4 * x * x - 0.336, 7),
            // A bend at the root.
            (|x| (x - 0.3) * if x < 0.3 { 1.0 } else { 4.0 }, 10),
            (|x| x.powi(9) - 0.3f64.powi(9), most),
            (|x| (50.0 * (x - 0.3)).tanh(), 14),
            (|x| (20.0 * x).exp() - 403.0, most),
        ];
        for (i, (curve, most)) in curves.iter().enumerate() {
            let mut looks = 0;
            let mut counted = |x: f64| {
                looks += 1;
                curve(x)
            };
            let found = edge((1.0, curve(1.0)), (-1.0, curve(-1.0)), 1e-7, &mut counted);
            assert!(curve(found) >= 0.0 && curve(found - 1e-7) < 0.0, "curve {i}: {found}");
            assert!(looks <= *most, "curve {i}: {looks} looks");
        }
    }

    #[test]
    fn a_bracket_closes_whatever_is_guessed() {
        // Guesses that creep: only halving gets there, every second look at least.
        for guess in [None, Some(1e-9), Some(-5.0), Some(f64::NAN)] {
            let mut bracket = Bracket::new(0.0, 1.0);
            let mut x = 0.5;
            for _ in 0..110 {
                bracket.look(x, x - 0.3);
                x = bracket.next(guess.map(|step| bracket.low() + step)).expect("both ends are known");
            }
            assert!(bracket.width() < 1e-15 && (x - 0.3).abs() < 1e-15, "{guess:?}: {bracket:?}");
        }
    }

    #[test]
    fn an_open_bracket_takes_a_guess_or_none() {
        let mut bracket = Bracket::new(f64::NEG_INFINITY, f64::INFINITY);
        bracket.look(1.0, -2.0);
        assert_eq!((bracket.low(), bracket.high()), (1.0, f64::INFINITY));
        assert_eq!(bracket.next(Some(3.0)), Some(3.0));
        assert_eq!(bracket.next(Some(0.0)), None);
        // Not halved: the guess is not trusted.
        bracket.look(3.0, -1.5);
        assert_eq!(bracket.next(Some(4.0)), None);
    }

    #[test]
    fn halving_ends_on_both_sides_of_a_change() {
        let found = halve(1.0, 0.0, 1e-9, |x| Ok::<_, ()>(x >= 0.3));
        let (holds, fails) = found.expect("no error");
        assert!(holds >= 0.3 && fails < 0.3 && holds - fails <= 1e-9);
        assert_eq!(halve(0.0, 1.0, 1e-9, |_| Err("lost")), Err("lost"));
        // Finer than numbers are apart.
        assert!(halve(1.0, 2.0, 0.0, |x| Ok::<_, ()>(x < 1.5)).is_ok());
    }
}
