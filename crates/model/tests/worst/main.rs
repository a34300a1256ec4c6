//! Every worst case bounds what comes of it: pens are drawn with every size off by as much as its
//! hand may miss it, resolved and settled anew, and no clearance comes out less than its worst.

#![allow(
    clippy::expect_used,
    reason = "tests stop where a text is not as written"
)]

mod corners;

use quillet_fixture::Random;
use quillet_model::{Clearance, Design, SurfacePoint, Texts, load, resolve};
use std::path::Path;

/// How many pens are drawn of each.
const CASES: usize = 1_000;

/// A pen as text, with `<SIZE±T>` for each size that is missed by up to `T` either way and
/// `<SIZE+T>` for one that only comes out over, and `<NAME:SIZE±T>` where one size is written in two
/// places. `SCALE` is what a unit of the text measures, mm.
struct Drawn {
    text: String,
    scale: f64,
}

impl Drawn {
    /// The text, each size missed by a share of what it may be: -1 to 1, or as drawn.
    fn with(&self, mut share: Option<&mut Random>) -> String {
        let mut named: Vec<(&str, f64)> = Vec::new();
        let mut out = String::new();
        let mut rest = &*self.text;
        while let Some((before, after)) = rest.split_once('<') {
            let (size, tail) = after.split_once('>').expect("a size ends");
            let (name, size) = size.split_once(':').unwrap_or(("", size));
            let either = size.split_once('±');
            let (nominal, within) = either
                .or_else(|| size.split_once('+'))
                .expect("a size says by how much it is missed");
            let number = |text: &str| text.parse::<f64>().expect("a number");
            let known = named.iter().find(|it| it.0 == name && !name.is_empty());
            let missed = known.map(|it| it.1).unwrap_or_else(|| {
                let share = share.as_mut().map_or(0.0, |random| {
                    // Often right at the edge, where the sum is put to the test.
                    let drawn = 2.4 * random.share() - 1.2;
                    drawn.clamp(-1.0, 1.0)
                });
                let share = if either.is_some() { share } else { share.abs() };
                share * number(within)
            });
            named.push((name, missed));
            out += before;
            // To the nanometre, as lengths are kept.
            out += &format!("{:.9}", number(nominal) + missed / self.scale);
            rest = tail;
        }
        out + rest
    }
}

fn design(text: &str) -> Design {
    let texts = Texts::default().with("t.quillet", text);
    resolve(&load(Path::new("t.quillet"), &texts).expect("the text is there"))
}

/// What a clearance is between, numbers apart.
fn key(it: &Clearance) -> impl PartialEq + std::fmt::Debug + use<> {
    let spot = |spot: &SurfacePoint| (spot.part, spot.origin);
    (it.kind, spot(&it.male), spot(&it.female))
}

/// The least that any sample leaves over its worst, over all clearances; how many were compared.
fn bounded(drawn: &Drawn) -> (f64, usize) {
    let nominal = design(&drawn.with(None));
    assert!(nominal.findings.is_empty(), "{:#?}", nominal.findings);
    let mut random = Random(1);
    let (mut least, mut compared) = (f64::INFINITY, 0);
    for _ in 0..CASES {
        let sample = design(&drawn.with(Some(&mut random)));
        assert!(sample.findings.is_empty(), "{:#?}", sample.findings);
        for (one, other) in nominal.pens.iter().zip(&sample.pens) {
            let alike = |a: &quillet_model::AtRest, b: &quillet_model::AtRest| {
                let first = |it: &quillet_model::AtRest| {
                    let touch = it.touches.first()?;
                    Some((touch.male.origin, touch.female.origin))
                };
                a.stopped_by == b.stopped_by && first(a) == first(b)
            };
            let joints = || one.assembly.joints.iter().zip(&other.assembly.joints);
            // Where another pair stops a joint, what is left is another sum.
            if !joints().all(|(a, b)| alike(a, b)) {
                continue;
            }
            for (rest, made) in joints() {
                for it in rest.clearances.iter() {
                    let same = made.clearances.iter().find(|other| key(other) == key(it));
                    let Some(same) = same else { continue };
                    compared += 1;
                    let over = same.nominal_mm - it.least_mm;
                    assert!(over >= -1e-6, "{over} under the worst of {it:#?}");
                    least = least.min(over);
                }
            }
        }
    }
    (least, compared)
}

fn holds(text: &str, scale: f64) {
    // The unit of a file is said before all else.
    let (unit, rest) = match text.strip_prefix(INCHES) {
        Some(rest) => (INCHES, rest),
        None => ("", text),
    };
    let text = format!("{unit}{BENCH}{rest}");
    let (least, compared) = bounded(&Drawn { text, scale });
    assert!(compared > CASES / 2, "{compared} compared");
    // The bound is no wider than the sum needs: some sample comes near to it.
    assert!(least < 0.5, "never nearer than {least} mm");
}

const INCHES: &str = "dimensions in inches\n";
/// How a hand keeps things in these pens; `keeps` of a size is what its `<…>` may be missed by.
const BENCH: &str = "bench shed {\nkeeps nib 0.4mm\nkeeps depth 0.2mm\nkeeps shoulder 0.07mm\n\
                     keeps length 0.12mm\nkeeps dia 0.08mm\nkeeps bore 0.06mm\nkeeps drill 0.1mm\n}\n";

#[test]
fn a_cap_over_a_nib_in_a_section_in_a_barrel() {
    // A nib that is set further out is one whose point is further from its heel.
    holds(
        "bought nib-unit from heel to point {\nlength <41±0.4>\nmass 3\noutside {\nat 0 dia \
         6\nat 18 dia 6.8 step 10\nat 23 dia 10\nat point dia 4\n}\n}\n\
         part section from tip to shank {\nblank of acrylic rod 16\nlength <31±0.12>\noutside \
         {\nat 0 dia <11±0.08>\nat <21±0.07> dia <12±0.08> step <t:9.4±0.08> as shoulder\nat \
         shank dia <t:9.4±0.08>\n}\nfrom tip {\nbore <10.4±0.06> to <1.4±0.2>\ndrill <7.1+0.1> \
         through\n}\n}\n\
         part barrel from mouth to tail {\nblank of acrylic rod 20\nlength <80±0.12>\noutside \
         {\nat <b:9±0.07> dia <15±0.08> as shoulder\nat tail dia <13±0.08>\n}\nfrom mouth \
         {\ntenon <13±0.08> for <b:9±0.07>\ndrill <9.7+0.1> to <14±0.2>\ndrill <7.8+0.1> to \
         <60±0.2>\n}\n}\n\
         part cap from mouth to crown {\nblank of acrylic rod 20\nlength <66±0.12>\noutside dia \
         <17±0.08>\nfrom mouth {\nbore <13.6±0.06> to <9.5±0.2>\ndrill <12.8+0.1> to \
         <55.5±0.2>\n}\n}\n\
         pen p {\nslip nib-unit.heel into section.tip\nslip section.shank into barrel.mouth\n\
         close cap.mouth onto barrel.mouth\n}\n",
        1.0,
    );
}

#[test]
fn three_in_a_stack_and_a_cap_that_goes_in() {
    // The cap is the male; a washer and a tube lie between it and the bottom of the barrel.
    holds(
        "part washer from a to b {\nblank of acrylic rod 12\nlength <2.5±0.12>\noutside dia \
         <9±0.08>\nfrom a {\nbore <4±0.06> through\n}\n}\n\
         part tube from a to b {\nblank of acrylic rod 12\nlength <11±0.12>\noutside dia \
         <9±0.08>\nfrom a {\nbore <5±0.06> through\n}\n}\n\
         part barrel from mouth to tail {\nblank of acrylic rod 20\nlength <60±0.12>\noutside dia \
         <15±0.08>\nfrom mouth {\nbore <9.6±0.06> to <30±0.2>\nbore <3±0.06> to <48±0.2>\n}\n}\n\
         part cap from plug to top {\nblank of acrylic rod 20\nlength <40±0.12>\noutside {\nat 0 \
         dia <p:9±0.08>\nat <14±0.07> dia <p:9±0.08> step <12±0.08>\nat <9±0.07> from top dia \
         <14±0.08>\nat top dia <13±0.08>\n}\n}\n\
         pen p {\nclose cap.plug into barrel.mouth through washer, tube\n}\n",
        1.0,
    );
}

#[test]
fn cones_on_cones() {
    // A plug's cone on a taper, the corner of a bore on a cone, and a point in a drill's.
    holds(
        "part plug from front to back {\nblank of acrylic rod 20\nlength <40±0.12>\noutside {\nat \
         0 dia <6±0.08>\nat <12±0.07> dia <9±0.08>\nat <20±0.07> dia <9±0.08> step \
         <13±0.08>\nat back dia <13±0.08>\n}\n}\n\
         part seat from mouth to end {\nblank of acrylic rod 20\nlength <50±0.12>\noutside dia \
         <16±0.08>\nfrom mouth {\ntaper <10±0.06> to <5±0.06> for <16±0.2>\ndrill <4.6+0.1> to \
         <30±0.2>\n}\n}\n\
         part hole from mouth to end {\nblank of acrylic rod 20\nlength <50±0.12>\noutside dia \
         <16±0.08>\nfrom mouth {\nbore <7.6±0.06> to <36±0.2>\n}\n}\n\
         pen one {\nslip plug.front into seat.mouth\n}\n\
         pen other {\nslip plug.front into hole.mouth\n}\n",
        1.0,
    );
}

#[test]
fn posted_and_pressed_by_a_length() {
    holds(
        "part barrel from mouth to tail {\nblank of acrylic rod 20\nlength <80±0.12>\noutside {\nat \
         0 dia <o:12±0.08>\nat <15±0.07> dia <o:12±0.08> step <14±0.08>\nat <45±0.07> dia \
         <13.5±0.08> smooth\nat <10±0.07> from tail dia <11±0.08> smooth\nat tail dia \
         <9±0.08>\n}\nfrom tail {\nbore <6±0.06> to <20±0.2>\n}\n}\n\
         part cap from mouth to crown {\nblank of acrylic rod 20\nlength <60±0.12>\noutside dia \
         <16±0.08>\nfrom mouth {\nbore <12.4±0.06> to <50±0.2>\n}\n}\n\
         part button from shank to top {\nblank of acrylic rod 20\nlength <16±0.12>\noutside {\nat \
         0 dia <d:6±0.08>\nat <12±0.07> dia <d:6±0.08> step <8±0.08>\nat top dia \
         <8±0.08>\n}\n}\n\
         pen p {\npress button.shank into barrel.tail by <9±0.12>\nclose cap.mouth onto \
         barrel.mouth\npost cap.mouth onto barrel.tail by <1.5±0.12>\n}\n",
        1.0,
    );
}

#[test]
fn in_inches() {
    holds(
        "dimensions in inches\n\
         part barrel from mouth to tail {\nblank of acrylic rod 0.8\nlength <3.2±0.12>\noutside \
         {\nat <b:0.375±0.07> dia <0.6±0.08> as shoulder\nat tail dia <0.55±0.08>\n}\nfrom mouth \
         {\ntenon <0.5±0.08> for <b:0.375±0.07>\nbore <0.3±0.06> to <1.2±0.2>\n}\n}\n\
         part cap from mouth to crown {\nblank of acrylic rod 0.8\nlength <2.4±0.12>\noutside dia \
         <0.68±0.08>\nfrom mouth {\nbore <0.51±0.06> to <0.41±0.2>\nbore <0.4±0.06> to \
         <1.9±0.2>\n}\n}\n\
         part plug from front to back {\nblank of acrylic rod 0.8\nlength <1±0.12>\noutside {\nat 0 \
         dia <p:0.29±0.08>\nat <0.8±0.07> dia <p:0.29±0.08> step <0.35±0.08>\nat back dia \
         <0.35±0.08>\n}\n}\n\
         pen p {\nslip plug.front into barrel.mouth\nclose cap.mouth onto barrel.mouth\n}\n",
        25.4,
    );
}
