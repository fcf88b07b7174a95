//! What bends in the frame: the metal, the tongue and the rails.

use super::prelude::*;

const SECTION: &str = "From a table of sections for its shape, size and wall.";
const YIELD: &str = "From the mill's stamp or the maker; leave it out where nobody knows.";
const WELD: &str = "Look for a weld across it or on its edges there.";

inputs! {
    s, at;

    TRAILER_MATERIAL: Choice<Material> = "trailer.material", s.trailer.material, Any, Measured,
        "what the frame is made of",
        "steel or aluminium: a magnet tells.",
        default: word("steel").assumed("common practice, no source");
    TRAILER_TONGUE_SECTION_MODULUS: SectionModulus = "trailer.tongue.section_modulus", s.trailer.tongue.section_modulus, Positive, Measured,
        "the tongue's section modulus for bending up and down, of all its members together",
        SECTION,
        plausible: (cubic_inches(0.2), cubic_inches(80.0));
    TRAILER_TONGUE_YIELD: Stress = "trailer.tongue.yield", s.trailer.tongue.yield_stress, Positive, Measured,
        "yield stress of the tongue's metal",
        YIELD,
        default: rule("steel 36 ksi, aluminium 35 ksi, aluminium beside a weld 15 ksi"),
        plausible: (pounds_a_square_inch(1e4), pounds_a_square_inch(1.2e5));
    TRAILER_TONGUE_WELD: Flag = "trailer.tongue.weld", s.trailer.tongue.weld, Any, Measured,
        "whether the tongue is welded where it is held",
        WELD,
        default: word("false");
    TRAILER_TONGUE_HELD_FROM: Length = "trailer.tongue.held_from", s.trailer.tongue.held_from, Positive, Measured,
        "ball to where the frame holds the tongue; of two clamps to the forward one",
        TAPE_X,
        plausible: (feet(0.5), feet(25.0));
    TRAILER_TONGUE_CLAMPS: Length = "trailer.tongue.clamps", s.trailer.tongue.clamps, Positive, Measured,
        "between the two clamps that hold a tongue which can be drawn in",
        "Tape between their middles.",
        plausible: (inches(3.0), feet(15.0));
    TRAILER_TONGUE_CLAMP_RATING: Weight = "trailer.tongue.clamp_rating", s.trailer.tongue.clamp_rating, Positive, Measured,
        "what one clamp may hold up or down",
        "From the trailer's maker.",
        plausible: (pounds(200.0), pounds(60000.0));
    TRAILER_RAILS_SECTION_MODULUS: SectionModulus = "trailer.rails.section_modulus", s.trailer.rails.section_modulus, Positive, Measured,
        "the section modulus of one frame rail for bending up and down",
        SECTION,
        plausible: (cubic_inches(0.2), cubic_inches(80.0));
    TRAILER_RAILS_YIELD: Stress = "trailer.rails.yield", s.trailer.rails.yield_stress, Positive, Measured,
        "yield stress of the rails' metal",
        YIELD,
        default: rule("steel 36 ksi, aluminium 35 ksi, aluminium beside a weld 15 ksi"),
        plausible: (pounds_a_square_inch(1e4), pounds_a_square_inch(1.2e5));
    TRAILER_RAILS_WELD: Flag = "trailer.rails.weld", s.trailer.rails.weld, Any, Measured,
        "whether a rail is welded where it is bent most",
        WELD,
        default: word("false");
}
