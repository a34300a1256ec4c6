//! Plain joints.

use crate::{Source, page, source};

/// A plug of 8 in a tube bored `$`, its shoulder 10 in.
fn plug(rule: &'static str, joint: &str) -> Source {
    plug_of(rule, "acrylic", "acrylic", joint)
}

fn plug_of(rule: &'static str, plug: &str, tube: &str, joint: &str) -> Source {
    source(
        rule,
        &format!(
            "part tube from mouth to tail {{
  blank of {tube} rod 16
  length 40
  outside dia 14
  from mouth {{
    bore $ to 12
  }}
}}
part plug from front to back {{
  blank of {plug} rod 14
  length 20
  outside {{
    at 0  dia 8
    at 10 dia 8 step 12
    at 20 dia 12
  }}
}}
pen p {{
  {joint}
}}
"
        ),
    )
}

const SLIP: &str = "slip plug.front into tube.mouth";
const GLUE: &str = "glue plug.front into tube.mouth";
const PRESS: &str = "press plug.front into tube.mouth";
const PUSH: &str = "push plug.front into tube.mouth";

/// 0.02 to 0.3 mm where nothing is asked; two hundredths about what is, or what a limit says. A
/// diameter is worked out from a radius to the nanometre, so it steps by two.
#[test]
fn a_fit() {
    for joint in [SLIP, GLUE] {
        let it = plug("poor-fit", joint);
        it.edge("8.019999", "8.019998")
            .message("⌀8.00 in ⌀8.02 leaves 0.02 mm of clearance")
            .message("wants 0.02 to 0.3 mm of clearance")
            .hints("⌀7.97 in this hole gives it");
    }
    let it = plug("poor-fit", SLIP);
    it.edge("8.3", "8.300001")
        .hints("⌀8.25 in this hole gives it");
    let press = plug("poor-fit", PRESS);
    press
        .edge("7.999998", "7.999999")
        .message("a press fit wants interference")
        .hints("⌀8.02 in this hole gives it");
    let asked = plug("poor-fit", &format!("{SLIP} clearance 0.1"));
    asked
        .edge("8.079999", "8.079998")
        .message("a clearance of 0.1 mm is asked")
        .hints("⌀7.98 in this hole gives it");
    asked.edge("8.12", "8.120001");
    let limited = asked.and("limit poor-fit = 0.04\n");
    limited.edge("8.06", "8.059999");
    let pressed = plug("poor-fit", &format!("{PRESS} interference 0.06"));
    pressed
        .edge("7.96", "7.960001")
        .message("leaves 0.04 mm of interference; an interference of 0.06 mm is asked");
    let glued = plug("poor-fit", &format!("{GLUE} gap 0.1"));
    glued
        .edge("8.079999", "8.079998")
        .message("a gap of 0.1 mm is asked");
    glued.edge("8.12", "8.120001");
}

/// ISO 286: H7 of 8 is +15 µm, g6 −5 to −14: 5 to 29 µm. Drawn to one size it will do.
#[test]
fn a_standard_fit() {
    let it = plug("poor-fit", &format!("{SLIP} fit H7/g6"));
    it.silent("8");
    it.edge("8.004999", "8.004998")
        .message("H7/g6 asks for 0.005 to 0.029 mm of clearance");
    it.edge("8.029001", "8.029002")
        .hints("⌀8.012 in this hole gives it");
    // A drill makes H11 and no finer.
    let drilled = |fit: &str| plug("poor-fit", &format!("{SLIP} fit {fit}")).but("bore", "drill");
    drilled("H11/h9").silent("8");
    drilled("H10/g9")
        .speaks("8")
        .message("a drilled hole comes out at 8.05 to 8.15 mm; H10 wants a reamer or a boring bar");
}

/// A strain of 0.003 of the hole, or what a limit says, less what warming by 30 K takes.
#[test]
fn a_press_that_cracks() {
    let it = plug("press-cracks", PRESS);
    // (8 − d)/d = 0.003
    it.edge("7.976072", "7.97607")
        .message("0.024 mm of interference strains ⌀7.98 by 0.30002 %; acrylic bears 0.30000 %");
    let asked = |joint: &str| plug("press-cracks", joint).but("bore $", "bore 8");
    let asked = asked("press plug.front into tube.mouth interference $");
    asked
        .edge("0.024", "0.024001")
        .hints("an interference of 0.024 mm or less bears it");
    let limited = asked.and("limit press-cracks = 0.005\n");
    limited
        .edge("0.04", "0.040001")
        .message("acrylic bears 0.50000 %");
    plug_of("press-cracks", "acrylic", "brass", PRESS).silent("7.95");
    // Acetal grows by 110 millionths a kelvin and acrylic by 70: 0.0012 in 30 K leave 0.0018.
    let warm = plug_of("press-cracks", "acetal", "acrylic", PRESS);
    warm.edge("7.985626", "7.985624")
        .message("by 0.30002 %, 0.12 % of it by warming 30 K; acrylic bears 0.30000 %")
        .hints("an interference of 0.014 mm or less bears it");
    // Brass grows less than what is round it, and takes nothing back.
    let cold = plug_of("press-cracks", "brass", "acrylic", PRESS);
    cold.edge("7.976072", "7.97607")
        .message("by 0.30002 %; acrylic");
}

/// 0.05 mm on wood, twice on diameter; on other stock where the part says so.
#[test]
fn a_coat() {
    let rule = "finish-closes-fit";
    let both = plug_of(rule, "maple", "maple", SLIP);
    both.edge("8.199999", "8.199998")
        .message("0.199998 mm of clearance is drawn, and a coat of 0.05 mm on plug and 0.05 mm on tube takes 0.200000 mm of it");
    both.edge("7.999998", "7.999999");
    plug_of(rule, "maple", "acrylic", SLIP)
        .edge("8.099999", "8.099998")
        .message("a coat of 0.05 mm on plug takes 0.100000 mm of it");
    both.and("limit finish-closes-fit = 0.06\n")
        .edge("8.24", "8.239999");
    let plain = plug_of(rule, "acrylic", "maple", SLIP);
    plain
        .edge("8.099999", "8.099998")
        .message("a coat of 0.05 mm on tube takes");
    let acrylic = plug_of(rule, "acrylic", "acrylic", SLIP);
    acrylic.silent("8.05");
    acrylic
        .but(
            "outside dia 14",
            "outside dia 14\n  limit finish-closes-fit = 0.06",
        )
        .edge("8.119999", "8.119998")
        .message("a coat of 0.06 mm on tube takes 0.120000 mm of it");
    plug_of(rule, "maple", "maple", PUSH).silent("8.1");
    // Where a coat is written the joint is masked, and the plug's alone is left.
    plug_of(rule, "maple", "maple", SLIP)
        .but(
            "outside dia 14",
            "outside dia 14\n  finish \"oil\" coat 0.1",
        )
        .edge("8.099999", "8.099998")
        .message("a coat of 0.05 mm on plug takes 0.100000 mm of it");
}

/// Glue fills 0.2 mm, oil 0.03; π/4·8.2²·10 mm³ is 0.53 ml.
#[test]
fn trapped_air() {
    let rule = "trapped-air";
    plug(rule, GLUE).edge("8.200001", "8.2").message(
        "plug.front closes tube.mouth (⌀8.20) with 0.53 ml of air before it and no way out",
    );
    plug(rule, SLIP).edge("8.030001", "8.03");
    plug(rule, PRESS)
        .speaks("7.99")
        .message("with 0.50 ml of air");
    plug(rule, PUSH).silent("7.99");
    // Through either of the two the air escapes; through a hole that stops it does not.
    let drilled = |cut: &str| {
        let to = format!("at 20 dia 12\n  }}\n  from front {{\n    {cut}\n  }}");
        plug(rule, GLUE).but("at 20 dia 12\n  }", &to)
    };
    drilled("drill 2 through").silent("8.1");
    drilled("drill 2 to 15").speaks("8.1");
    plug(rule, GLUE)
        .but("bore $ to 12", "bore $ to 12\n    drill 2 through")
        .silent("8.1");
    plug(rule, GLUE)
        .but("bore $ to 12", "bore $ to 12\n    drill 2 to 30")
        .speaks("8.1");
}

/// Glue over 1 mm within 0.3 mm of it; a push of no more than 0.05 mm of room.
#[test]
fn what_holds() {
    let rule = "nothing-holds";
    plug(rule, GLUE).edge("8.300002", "8.300003").message(
        "nothing holds plug in tube: a gap of 0.300003 mm for the glue; it holds in 0.02 to 0.300000 mm",
    );
    plug(rule, PUSH)
        .edge("8.050002", "8.050003")
        .message("a push holds from 0.4 mm of interference to 0.050000 mm of clearance");
    plug(rule, GLUE)
        .but("bore $ to 12", "bore 8.1 to $")
        .edge("0.999999", "0.999998")
        .message("the glue reaches over 0.999998 mm; 1.000000 mm at least holds");
    // 0.3 mm is glue that holds, if there were enough of it.
    plug(rule, GLUE)
        .but("bore $ to 12", "bore 8.3 to $")
        .speaks("0.9")
        .message("the glue reaches over 0.9 mm");
}

/// A bore of 10.3 leaves 0.3 over a plug of 10: just what ±0.2 and ±0.1 take.
#[test]
fn too_close() {
    let it = page("too-close-to-call").but("to 10.2", "to $");
    it.edge("10.3", "10.299999")
        .message("0.30 mm along the axis is left between plug's front and tube's ⌀8.10 bore; at worst they meet 0.000001 mm early, the sum of tube's bore to 10.299999 (±0.2 mm), plug at 10 (±0.1 mm)")
        .hints("leave more room ahead");
    it.speaks("10.1")
        .message("at worst they meet 0.20 mm early");
    // What is bought is told of as well, where it goes into what is turned.
    let bought = "bought plug from front to back {\n  length 20\n  mass 1";
    it.clone()
        .but(
            "part plug from front to back {\n  blank of acrylic rod 14\n  length 20",
            bought,
        )
        .speaks("10.1");
    // What touches as drawn is not left between them.
    it.edge("10", "10.1");
}

/// A converter of 7 and more wants 8, or 0.25 more than it has; a slimmer one 0.5.
#[test]
fn what_passes() {
    let it = page("wont-pass").but("drill 7.2", "drill $");
    it.edge("7.999999", "7.999998")
        .message("converter (⌀7.40) passes holder's ⌀8.00 drill (⌀7.999998), but ⌀8.000000 is wanted to let it through freely");
    let limited = it.and("limit wont-pass = 7.7\n");
    limited
        .edge("7.699999", "7.699998")
        .hints("make the throat ⌀7.70");
    let fat = page("wont-pass").but("outside dia 7.4", "outside dia $");
    fat.clone()
        .but("drill 7.2", "drill 8")
        .edge("7.75", "7.750001");
    fat.clone()
        .but("drill 7.2", "drill 7.6")
        .edge("6.999998", "6.999999");
    fat.edge("6.7", "6.700001").hints("make the throat ⌀7.30");
}
