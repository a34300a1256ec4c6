//! What cannot be asked of a number's room is refused in a sentence.

use crate::run::{examples, run, stderr, stdout};

#[test]
#[expect(clippy::too_many_lines, reason = "one list of questions and answers")]
fn what_cannot_be_asked_is_refused_in_a_sentence() {
    for (args, wanted) in [
        (
            &["room", "heron.quillet", "--of", "cap.mouth.drill.too"][..],
            "the nearest is cap.mouth.drill.to",
        ),
        (
            &["room", "heron.quillet", "--pen", "egret"],
            "there is no pen egret; there is heron, heron-ida",
        ),
        (
            &["room", "bought.quillet"],
            "no number in this file that can be moved",
        ),
        (
            &["vary", "heron.quillet", "grip=12..10 step 0.1"],
            "grip: 12..10 runs backward; write 10..12",
        ),
        (
            &["vary", "heron.quillet", "grip=10..12 step 0"],
            "grip: the step is 0; give one above 0",
        ),
        (
            &["vary", "heron.quillet", "grip=10..12 step 0.0001"],
            "grip: 20001 values; 10000 at most are looked at",
        ),
        (
            &["vary", "heron.quillet", "grip=10..12"],
            "a number with its range and step is wanted",
        ),
        (
            &[
                "vary",
                "heron.quillet",
                "grip=10..11 step 1",
                "--show",
                "ink",
            ],
            "say which pen with --pen: heron, heron-ida",
        ),
        (
            &[
                "vary",
                "heron.quillet",
                "grip=10..11 step 1",
                "--pen",
                "heron",
                "--show",
                "weight",
            ],
            "weight",
        ),
        (
            &[
                "aim",
                "heron.quillet",
                "ink",
                "--by",
                "grip=10..12",
                "--pen",
                "heron",
            ],
            "a measure and what it is to come to",
        ),
        (
            &[
                "aim",
                "heron.quillet",
                "ink = 1",
                "--by",
                "grip=12..10",
                "--pen",
                "heron",
            ],
            "runs backward; write 10..12",
        ),
        (
            &["aim", "knot.quillet", "ink = 1", "--by", "grip=10..12"],
            "quillet check says what is wrong",
        ),
        (
            &["spread", "knot.quillet"],
            "knot: this pen has errors as it is drawn, so none that a hand makes will do: stops-early",
        ),
        (
            &["spread", "heron.quillet", "--cases", "0"],
            "0 cases; from 1 to 100000 are made",
        ),
        (
            &["spread", "bought.quillet"],
            "there is no pen in this file",
        ),
    ] {
        let output = run(&examples(), args);
        let said = stderr(&output);
        assert_eq!(
            (output.status.code(), stdout(&output).as_str()),
            (Some(2), ""),
            "{args:?}: {said}"
        );
        assert!(said.contains(wanted), "{args:?}: {said}");
    }
}
