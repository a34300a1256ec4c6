//! Every verb of a joint, by hand: the figures are sums of the few lengths in each text.

mod between;
mod clocking;
mod fits;
mod passing;
mod rest;
mod stacks;
mod webs;

use quillet_geometry::Length;
use quillet_model::{
    AtRest, ClearanceKind, Closing, Configured, Design, JointId, RingId, StoppedBy, Texts, load,
    resolve,
};
use std::path::Path;

fn design(text: &str) -> Design {
    let texts = Texts::default().with("pen.quillet", text);
    let design = resolve(&load(Path::new("pen.quillet"), &texts).expect("the text is there"));
    assert!(design.findings.is_empty(), "{:#?}", design.findings);
    design
}

/// A rod with a head, `dia` over its first ten of twenty millimetres.
fn rod(name: &str, dia: &str) -> String {
    format!(
        "part {name} from front to back {{\n blank of acrylic rod 30\n length 20\n\
         outside {{\n at 0 dia {dia}\n at 10 dia {dia} step 14\n at 20 dia 14\n}}\n}}\n"
    )
}

/// A tube of outside 18 with this inside, forty long.
fn tube(name: &str, inside: &str) -> String {
    format!(
        "part {name} from mouth to end {{\n blank of acrylic rod 30\n length 40\n\
         outside dia 18\nfrom mouth {{\n{inside}\n}}\n}}\n"
    )
}

fn pen(lines: &str) -> String {
    format!("pen test {{\n{lines}\n}}\n")
}

fn joint(design: &Design, index: usize) -> &AtRest {
    &design.pens[0].assembly.joints[JointId::nth(index)]
}

fn near(found: f64, wanted: f64) {
    assert!(
        (found - wanted).abs() < 1e-9,
        "{found} where {wanted} was wanted"
    );
}
