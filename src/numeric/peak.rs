//! Where a function of one variable turns.

/// The golden section: what is left of a bracket at each of its steps.
const GOLDEN: f64 = 0.618_033_988_749_894_8;
/// More looks than this leave the bracket as it is: golden sections alone reach a share of 1e-20 of it.
const MOST_LOOKS: usize = 100;

/// The place between `from` and `to` where a function is greatest, found to `within`, and its value there.
///
/// `near` is a place between the two with the function's value, no less than at either end. Where the function turns
/// once between the ends the turn is found, a kink as well as a round top; where it turns more often, one of the turns.
///
/// Parabolas through the last looks, and golden sections where those do not close in. Source: Brent, Algorithms for
/// Minimization without Derivatives (1973), from memory; the tests compare it with known turns.
///
/// # Errors
/// What the function returns.
pub fn greatest<E>(
    mut from: f64,
    near: (f64, f64),
    mut to: f64,
    within: f64,
    mut function: impl FnMut(f64) -> Result<f64, E>,
) -> Result<(f64, f64), E> {
    // The best look, the second best, and the one that was second before.
    let (mut best, mut second, mut third) = (near, near, near);
    let (mut step, mut before): (f64, f64) = (0.0, 0.0);
    for _ in 0..MOST_LOOKS {
        let (left, right) = (best.0 - from, to - best.0);
        if left.max(right) <= 2.0 * within {
            break;
        }
        let parabola = through(best, second, third)
            .filter(|turn| turn.abs() < before.abs() / 2.0 && *turn > -left && *turn < right);
        (before, step) = if let Some(turn) = parabola {
            (step, turn)
        } else {
            let wider = if left > right { -left } else { right };
            (wider, (1.0 - GOLDEN) * wider)
        };
        // Nothing is learnt nearer to the best look than this, or to an end.
        let ends = (-left + within, right - within);
        let stride = if step.abs() < within { within.copysign(step) } else { step };
        let stride = if ends.0 <= ends.1 { stride.clamp(ends.0, ends.1) } else { stride };
        let stride = if stride.abs() < within {
            // An end is near: look on the other side.
            if left > right { -within } else { within }
        } else {
            stride
        };
        let x = best.0 + stride;
        let look = (x, function(x)?);
        if look.1 >= best.1 {
            *(if x > best.0 { &mut from } else { &mut to }) = best.0;
            (third, second, best) = (second, best, look);
        } else {
            *(if x > best.0 { &mut to } else { &mut from }) = x;
            if look.1 >= second.1 || second.0 == best.0 {
                (third, second) = (second, look);
            } else if look.1 >= third.1 || third.0 == best.0 || third.0 == second.0 {
                third = look;
            }
        }
    }
    Ok(best)
}

/// How far from the first of three looks their parabola turns, where it has a top.
fn through(best: (f64, f64), second: (f64, f64), third: (f64, f64)) -> Option<f64> {
    let (a, b) = (second.0 - best.0, third.0 - best.0);
    let (fall_a, fall_b) = (best.1 - second.1, best.1 - third.1);
    // y = y0 + p x + q x² through (a, −fall_a) and (b, −fall_b): the top is at −p / 2q.
    let (p, q) = (fall_b * a * a - fall_a * b * b, fall_a * b - fall_b * a);
    let turn = -p / (2.0 * q);
    (a != 0.0 && b != 0.0 && a != b && turn.is_finite()).then_some(turn)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The turn that is found, and after how many looks.
    fn found(from: f64, near: f64, to: f64, function: impl Fn(f64) -> f64) -> (f64, usize) {
        let mut looks = 0;
        let counted = |x: f64| {
            assert!(x > from && x < to, "{x} is outside");
            looks += 1;
            Ok::<_, ()>(function(x))
        };
        let (x, value) = greatest(from, (near, function(near)), to, 1e-6, counted).expect("no error");
        assert_eq!(value, function(x));
        (x, looks)
    }

    #[test]
    fn a_round_top_is_found_in_few_looks() {
        for top in [-0.9, -0.4, 0.1, 0.77] {
            let near = if top > 0.5 { 0.6 } else { -0.1 };
            // A parabola, a cosine, and one that leans.
            let curves: [fn(f64, f64) -> f64; 3] = [
                |x, top| 3.0 - (x - top) * (x - top),
                |x, top| (x - top).cos(),
                |x, top| (x - top) - (x - top).exp(),
            ];
            for (i, curve) in curves.into_iter().enumerate() {
                if curve(near, top) < curve(-1.0, top).max(curve(1.0, top)) {
                    continue;
                }
                let (x, looks) = found(-1.0, near, 1.0, |x| curve(x, top));
                assert!((x - top).abs() < 3e-6, "curve {i}: {x} for {top}");
                assert!(looks <= 20, "curve {i}: {looks} looks");
            }
        }
    }

    #[test]
    fn a_kink_is_found() {
        for top in [-0.2, 0.0, 0.3, 0.49] {
            let roof = |x: f64| if x < top { 2.0 * (x - top) } else { 0.3 * (top - x) };
            let near = 0.1;
            let (x, looks) = found(-1.0, near, 0.5, roof);
            assert!((x - top).abs() < 3e-6, "{x} for {top}");
            assert!(looks <= 45, "{looks} looks");
        }
    }

    #[test]
    fn a_plateau_ends() {
        let (x, looks) = found(-1.0, 0.0, 1.0, |_| 5.0);
        assert!(x.abs() <= 1.0 && looks <= 60, "{looks} looks");
    }

    #[test]
    fn an_error_is_handed_on() {
        assert_eq!(greatest(0.0, (0.5, 1.0), 1.0, 1e-6, |_| Err("lost")), Err("lost"));
    }
}
