//! Lumber: dressed sizes, sections, and what a grade may be stressed to.
//!
//! | symbol | meaning |
//! |---|---|
//! | `b`, `d` | a section's breadth, and its depth in the direction of bending |
//! | `A`, `S`, `I` | area, section modulus and second moment of area |
//! | `Fb`, `Fv`, `Fc⊥` | design value in bending, in shear along the grain, in bearing across it |
//! | `E` | modulus of elasticity |
//! | `CD` | load duration factor |
//! | `CM` | wet service factor |
//! | `CF` | size factor |
//!
//! The factors of the National Design Specification that are not here are taken as one: ordinary
//! temperatures (at most 100 °F), lumber that is not incised for treatment, members that do not share their
//! load with neighbours, no gain from lying flat, and beams held from rolling over (a depth of at most twice the breadth needs no
//! holding).
//!
//! How sure: *quoted* values were read on a page that quotes the document, the others are *from memory*.

use crate::quantity::{Area, Length, Pressure, Quantity, SecondMoment, Volume};
use arrayvec::ArrayVec;
use uom::si::area::square_meter;

const INCH: f64 = 0.0254;
/// One pound-force a square inch, in pascals: 0.453 592 37 kg × 9.806 65 m/s² over (25.4 mm)².
const PSI: f64 = 0.453_592_37 * 9.806_65 / (INCH * INCH);
/// A board this little over a size still is of that size.
const SIZE_TOLERANCE: f64 = INCH / 16.0;
/// Lengths in inches that differ by less are the same, but for rounding.
const TAPED: f64 = 1e-9;

/// The dressed size of a nominal one in inches, as lumber is sold: 2 × 8 measures 1½ × 7¼ in.
///
/// None for what is not a nominal size of the table: 2, 4, 6, 8, 10 and 12.
///
/// Source: American Softwood Lumber Standard PS 20, dry dressed; quoted.
pub fn dressed(nominal: u32) -> Option<Length> {
    let inches = match nominal {
        2 => 1.5,
        4 => 3.5,
        6 => 5.5,
        8 => 7.25,
        10 => 9.25,
        12 => 11.25,
        _ => return None,
    };
    Some(Length::from_si(inches * INCH))
}

/// How a board lies under its load.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Lay {
    /// On its narrow face: it bends in the direction of its width.
    OnEdge,
    /// On its wide face: it bends in the direction of its thickness.
    Flat,
}

/// A rectangular board as measured.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Board {
    /// Its smaller side.
    pub thickness: Length,
    /// Its larger side.
    pub width: Length,
}

/// What a section's shape means for stress and bending.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Section {
    /// Across the direction of bending.
    pub breadth: Length,
    /// In the direction of bending.
    pub depth: Length,
    /// Area.
    pub area: Area,
    /// Section modulus: bending moment over the stress of the extreme fibre, cubic metres inside.
    pub modulus: Volume,
    /// Second moment of area.
    pub second_moment: SecondMoment,
}

impl Board {
    /// The board of nominal sizes, in inches, the smaller first or last; none when one is not in the table.
    pub fn nominal(one: u32, other: u32) -> Option<Self> {
        Some(Self { thickness: dressed(one.min(other))?, width: dressed(one.max(other))? })
    }

    /// The board's section as it lies.
    pub fn section(self, lay: Lay) -> Section {
        let (breadth, depth) = match lay {
            Lay::OnEdge => (self.thickness, self.width),
            Lay::Flat => (self.width, self.thickness),
        };
        Section::rectangle(breadth, depth)
    }
}

impl Section {
    /// A rectangle, its depth in the direction of bending.
    ///
    /// Source: strength of materials, rectangles.
    pub fn rectangle(breadth: Length, depth: Length) -> Self {
        let (b, d) = (breadth.si(), depth.si());
        Self {
            breadth,
            depth,
            // A = b d
            area: Area::new::<square_meter>(b * d),
            // S = b d² / 6
            modulus: Volume::from_si(b * d * d / 6.0),
            // I = b d³ / 12
            second_moment: SecondMoment(b * d * d * d / 12.0),
        }
    }
}

/// A species and grade of dimension lumber, 2 to 4 in thick.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Lumber {
    /// Douglas fir-larch No. 2.
    DouglasFirLarch2,
    /// Southern pine No. 2.
    SouthernPine2,
    /// Western cedars No. 2.
    WesternCedar2,
}

/// Design values of a grade before any adjustment.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DesignValues {
    /// Extreme fibre in bending, `Fb`.
    pub bending: Pressure,
    /// Shear along the grain, `Fv`.
    pub shear: Pressure,
    /// Bearing across the grain, `Fc⊥`.
    pub bearing: Pressure,
    /// Modulus of elasticity, `E`.
    pub elasticity: Pressure,
    /// Whether the bending value is already that of the width, so that no size factor applies for it.
    pub for_its_width: bool,
}

impl DesignValues {
    fn psi(bending: f64, shear: f64, bearing: f64, elasticity: f64) -> Self {
        let psi = |value: f64| Pressure::from_si(value * PSI);
        Self {
            bending: psi(bending),
            shear: psi(shear),
            bearing: psi(bearing),
            elasticity: psi(elasticity),
            for_its_width: false,
        }
    }
}

impl Lumber {
    /// Every species and grade known here.
    pub const ALL: [Self; 3] = [Self::DouglasFirLarch2, Self::SouthernPine2, Self::WesternCedar2];

    /// Its design values for a board.
    ///
    /// # Errors
    /// [`NotDimensionLumber`] when the board is too thin, too thick or too wide for the tables.
    ///
    /// Source: National Design Specification Supplement 2018, tables 4A and 4B. Douglas fir-larch, and southern
    /// pine 6, 8 and 10 in wide: quoted. Southern pine 4 and 12 in wide, and western cedars: from memory.
    pub fn design_values(self, board: Board) -> Result<DesignValues, NotDimensionLumber> {
        let class = SizeClass::of(board)?;
        Ok(match self {
            Self::DouglasFirLarch2 => DesignValues::psi(900.0, 180.0, 625.0, 1.6e6),
            Self::WesternCedar2 => DesignValues::psi(700.0, 155.0, 425.0, 1.0e6),
            Self::SouthernPine2 => {
                let bending = match class.nominal_width {
                    ..=4 => 1100.0,
                    5..=6 => 1000.0,
                    7..=8 => 925.0,
                    9..=10 => 800.0,
                    _ => 750.0,
                };
                let values = DesignValues::psi(bending, 175.0, 565.0, 1.4e6);
                DesignValues { for_its_width: true, ..values }
            }
        })
    }
}

/// A board that the tables for dimension lumber do not cover.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
#[error("expected lumber from 1 1/2 to 4 in thick and up to 12 in nominal width, found another size")]
pub struct NotDimensionLumber;

/// The nominal sizes that decide a board's factors.
#[derive(Debug, Clone, Copy)]
struct SizeClass {
    /// Whether it counts as 4 in thick, not 2 or 3.
    thick: bool,
    /// The least nominal width that is no narrower.
    nominal_width: u32,
}

impl SizeClass {
    fn of(board: Board) -> Result<Self, NotDimensionLumber> {
        let (thickness, width) = (board.thickness.si() / INCH, board.width.si() / INCH);
        let tolerance = SIZE_TOLERANCE / INCH;
        if !(thickness >= 1.5 - tolerance && thickness <= 4.0 + tolerance && width >= thickness - tolerance) {
            return Err(NotDimensionLumber);
        }
        let widths = [(3.5, 4), (4.5, 5), (5.5, 6), (7.25, 8), (9.25, 10), (11.25, 12)];
        let fits = widths.iter().find(|(dressed, _)| width <= dressed + tolerance);
        let (_, nominal_width) = fits.ok_or(NotDimensionLumber)?;
        Ok(Self { thick: thickness >= 3.5 - tolerance, nominal_width: *nominal_width })
    }
}

/// How long the load acts, all its times together.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum LoadDuration {
    /// More than ten years: a boat stored on its trailer.
    Permanent,
    /// Ten years.
    TenYears,
    /// Two months.
    TwoMonths,
    /// Seven days.
    SevenDays,
    /// Ten minutes.
    TenMinutes,
    /// A shock.
    Impact,
}

impl LoadDuration {
    /// The load duration factor `CD`.
    ///
    /// Source: National Design Specification table 2.3.2; two months quoted, the rest from memory.
    pub fn factor(self) -> f64 {
        match self {
            Self::Permanent => 0.9,
            Self::TenYears => 1.0,
            Self::TwoMonths => 1.15,
            Self::SevenDays => 1.25,
            Self::TenMinutes => 1.6,
            Self::Impact => 2.0,
        }
    }
}

/// Whether the wood stays dry in use.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Service {
    /// At most 19 % of moisture.
    Dry,
    /// More than that for long: wood that goes into the water.
    Wet,
}

/// Which adjustment a factor is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Adjustment {
    /// `CD`.
    LoadDuration,
    /// `CM`.
    WetService,
    /// `CF`.
    Size,
}

impl Adjustment {
    /// The symbol of the factor.
    pub fn symbol(self) -> &'static str {
        match self {
            Self::LoadDuration => "CD",
            Self::WetService => "CM",
            Self::Size => "CF",
        }
    }
}

/// A design value with its factors: what the wood may bear is their product.
#[derive(Debug, Clone, PartialEq)]
pub struct Adjusted {
    /// The design value before adjustment.
    pub reference: Pressure,
    /// Every factor that applies to it, in the order of the document, also where it is one.
    pub factors: ArrayVec<(Adjustment, f64), 3>,
}

impl Adjusted {
    /// The design value times all its factors.
    pub fn value(&self) -> Pressure {
        self.reference * self.factors.iter().map(|(_, factor)| factor).product::<f64>()
    }
}

/// What a board may be stressed to, and how stiff its wood is.
#[derive(Debug, Clone, PartialEq)]
pub struct Allowed {
    /// Extreme fibre in bending, `Fb'`.
    pub bending: Adjusted,
    /// Shear along the grain, `Fv'`.
    pub shear: Adjusted,
    /// Bearing across the grain, `Fc⊥'`.
    pub bearing: Adjusted,
    /// Modulus of elasticity, `E'`.
    pub elasticity: Adjusted,
}

/// The use that a board is put to.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Use {
    /// How long its load acts.
    pub duration: LoadDuration,
    /// Whether it stays dry.
    pub service: Service,
}

/// What a board of these design values may be stressed to in a use, every factor apart.
///
/// # Errors
/// [`NotDimensionLumber`] when the board is too thin, too thick or too wide for the tables.
///
/// Source: National Design Specification table 4.3.1 for which factor applies where, and Supplement 2018
/// tables 4A and 4B for the factors. Wet service, and size on edge for 2 × 6, 2 × 8, 2 × 10 and 4 × 10: quoted.
/// Other sizes: from memory.
///
/// ```
/// use bunkline::mechanics::bunks::wood::{Board, LoadDuration, Lumber, Service, Use, allowed};
/// use bunkline::quantity::Quantity;
///
/// let board = Board::nominal(2, 10).expect("sizes of the table");
/// let values = Lumber::DouglasFirLarch2.design_values(board)?;
/// let stored = Use { duration: LoadDuration::Permanent, service: Service::Wet };
/// let bending = allowed(values, board, stored)?.bending;
/// // 900 psi, which times CF 1.1 is at most 1150 psi: wet service takes nothing from it.
/// let factors: Vec<f64> = bending.factors.iter().map(|(_, factor)| *factor).collect();
/// assert_eq!(factors, [0.9, 1.0, 1.1]);
/// assert!((bending.value().si() / 6894.757 - 891.0).abs() < 0.01);
/// # Ok::<(), bunkline::mechanics::bunks::wood::NotDimensionLumber>(())
/// ```
pub fn allowed(values: DesignValues, board: Board, how: Use) -> Result<Allowed, NotDimensionLumber> {
    let class = SizeClass::of(board)?;
    let wet = |factor: f64| if how.service == Service::Wet { factor } else { 1.0 };
    let duration = (Adjustment::LoadDuration, how.duration.factor());
    let size = size_factor(values, class);
    // CM for Fb is 1.0 where Fb CF ≤ 1150 psi
    let weak = values.bending.si() * size <= 1150.0 * PSI * (1.0 + 1e-12);
    let in_bending = if weak { 1.0 } else { wet(0.85) };
    let factors = |list: &[(Adjustment, f64)]| list.iter().copied().collect();
    let bending = [duration, (Adjustment::WetService, in_bending), (Adjustment::Size, size)];
    Ok(Allowed {
        bending: Adjusted { reference: values.bending, factors: factors(&bending) },
        shear: Adjusted {
            reference: values.shear,
            factors: factors(&[duration, (Adjustment::WetService, wet(0.97))]),
        },
        bearing: Adjusted {
            reference: values.bearing,
            factors: factors(&[(Adjustment::WetService, wet(0.67))]),
        },
        elasticity: Adjusted {
            reference: values.elasticity,
            factors: factors(&[(Adjustment::WetService, wet(0.9))]),
        },
    })
}

/// The size factor `CF` for bending, grades No. 1 to No. 3.
fn size_factor(values: DesignValues, class: SizeClass) -> f64 {
    if values.for_its_width {
        // Table 4B: 4 in thick and 8 in or more wide bears a tenth more than the tabled width.
        return if class.thick && class.nominal_width >= 8 { 1.1 } else { 1.0 };
    }
    match (class.nominal_width, class.thick) {
        (..=4, _) => 1.5,
        (5, _) => 1.4,
        (6, _) | (8, true) => 1.3,
        (8, false) | (10, true) => 1.2,
        (10, false) | (12, true) => 1.1,
        _ => 1.0,
    }
}

/// The bearing area factor `Cb` of wood over a support `length` long, `from_end` from the wood's nearer end.
///
/// `(l_b + 0.375)/l_b`, in inches, for less than 6 in that begins 3 in or more from the end: the wood beside it helps. Else 1.
///
/// Source: National Design Specification 3.10.4; quoted.
pub fn bearing_area_factor(length: Length, from_end: Length) -> f64 {
    let (l, from_end) = (length.si() / INCH, from_end.si() / INCH);
    let short_and_inside = l < 6.0 - TAPED && from_end >= 3.0 - TAPED;
    if short_and_inside { (l + 0.375) / l } else { 1.0 }
}
