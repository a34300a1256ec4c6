//! How plain surfaces lie in each other where what goes in comes to rest on a drill's point.

use crate::{design, joint};
use quillet_geometry::Length;
use quillet_model::HeldBy;

/// A bush of 13 rests where the cone of 118° is as wide: (D - 13) / 2 / tan 59° beyond the corner. It fits
/// the hole, not the cone.
#[test]
fn a_bush_on_a_drills_point_fits_by_the_hole() {
    let rest = |verb: &str, drill: &str| {
        let text = format!(
            "part bush from front to back {{\n blank of brass rod 16\n length 10\n outside dia 13\n\
             from front {{\n bore 6 through\n}}\n}}\n\
             part tube from mouth to end {{\n blank of acrylic rod 20\n length 60\n outside dia 17\n\
             from mouth {{\n drill {drill} to 40\n}}\n}}\n\
             pen test {{\n {verb} bush.front into tube.mouth\n}}\n"
        );
        let design = design(&text);
        let rest = joint(&design, 0);
        let fit = rest.fit.expect("one lies in the other").clearance;
        (rest.goes_in_mm, fit, rest.verdict.held_by.clone())
    };
    for (drill, room) in [
        ("13.1", 0.1),
        ("13.05", 0.05),
        ("13.4", 0.4),
        ("13.02", 0.02),
    ] {
        let (goes_in_mm, fit, held) = rest("glue", drill);
        let cone = room / 2.0 / 59f64.to_radians().tan();
        assert!((goes_in_mm - 40.0 - cone).abs() < 1e-6, "{goes_in_mm}");
        assert_eq!(fit, Length::mm(room), "{drill}");
        // Glue fills 0.02 to 0.3 mm.
        let glued = matches!(held[..], [HeldBy::Glue { .. }]);
        assert_eq!(glued, room <= 0.3, "{drill}: {held:?}");
    }
    // Room all round presses nothing.
    for drill in ["13.1", "13.05"] {
        assert_eq!(rest("press", drill).2, [], "{drill}");
    }
    for drill in ["12.98", "12.95"] {
        let held = rest("press", drill).2;
        assert!(
            matches!(held[..], [HeldBy::Interference { .. }]),
            "{held:?}"
        );
    }
}
