//! A bunk as it is cut: from its side, with the holes; and its end at full size, as a template for the bevel.

use super::section::end_of;
use super::{Drawing, Figure, Role, View, closed};
use crate::fit::bunks::cut_sheet;
use crate::fit::known::{Known, Missing};
use crate::mechanics::bunks::wood::Lay;
use crate::quantity::{Length, Quantity};
use crate::rig::{Rig, Units};

/// A hole is drawn so wide, in metres.
const HOLE: f64 = 0.03;
/// So much of a board is drawn below its bevel, in metres.
const BELOW: f64 = 0.06;
/// The bar to check a print by, in metres: in US units 4 in, else 100 mm.
const BARS: [f64; 2] = [0.1016, 0.1];

/// The cut sheet's two views.
pub(super) fn bunks(rig: &Rig) -> Known<Vec<Drawing>> {
    let setup = rig.proposed();
    // The bevel may leave no wood.
    let sheet = cut_sheet(setup)?.ok_or_else(Missing::default)?;
    let (board, zero) = (&sheet.board, Length::default());
    let mut side = Drawing::new(View::Bunks);
    let [depth, lower] = [board.outer_depth, board.outer_depth - sheet.drop];
    side.line(
        Role::Bunk,
        closed(vec![(zero, zero), (sheet.length, zero), (sheet.length, depth), (zero, depth)]),
    );
    if board.lay == Lay::OnEdge {
        // The inner edge, lower by the bevel.
        side.line(Role::Unknown, vec![(zero, lower), (sheet.length, lower)]);
    }
    for hole in &sheet.holes {
        let up = sheet.hole_height.unwrap_or(depth / 2.0);
        let at = (hole.from_forward_end, up);
        side.circle(Role::Hole, at, Length::from_si(HOLE / 2.0));
        let (crossmember, from_forward_end) = (hole.crossmember, hole.from_forward_end);
        side.mark((hole.from_forward_end, zero), Figure::Hole { crossmember, from_forward_end });
    }
    let mut end = Drawing::new(View::Bunks);
    end.is_full_size = true;
    // Only what is bevelled of a board on edge: the whole depth would not fit a sheet of paper.
    let cut = depth - sheet.drop - Length::from_si(BELOW);
    let is_cut = board.lay == Lay::OnEdge && cut > zero;
    let top = if is_cut { depth - cut } else { depth };
    let corners = end_of(board, (board.breadth, top));
    if is_cut {
        let [outer, inner] = [corners[0], corners[1]];
        end.line(Role::Bunk, vec![(outer.0, zero), outer, inner, (inner.0, zero)]);
        end.line(Role::Unknown, vec![(inner.0, zero), (outer.0, zero)]);
    } else {
        end.line(Role::Bunk, closed(corners));
    }
    end.mark((board.breadth, top), Figure::Bevel(board.deadrise));
    let is_metric = setup.units == Some(Units::Metric);
    let bar = Length::from_si(BARS[usize::from(is_metric)]);
    let below = -Length::from_si(HOLE);
    end.line(Role::Scale, vec![(zero, below), (bar, below)]);
    end.mark((bar, below), Figure::Scale(bar));
    Ok(vec![side, end])
}
