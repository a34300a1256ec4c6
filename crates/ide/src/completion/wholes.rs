//! Whole parts, pens and joints to fill in, beside the bare lines that begin them.

use super::stops::Stops;
use super::{Choice, ChoiceKind, CompletionContext, DocumentationKey};
use crate::forms::stop_of;
use quillet_model::Units;
use quillet_syntax::grammar::Place;

/// Something whole: where it stands, what it is called, what it is, its text with stops.
struct Construct {
    place: Place,
    label: &'static str,
    detail: &'static str,
    snippet: &'static str,
}

const WHOLES: &[Construct] = &[
    Construct {
        place: Place::Item,
        label: "part, whole",
        detail: "a part with its blank, its outside and a hole",
        snippet: "part ${1:barrel} from ${2:mouth} to ${3:tail} {
\tblank of ${4:acrylic} rod ${5:18}
\tlength ${6:80}
\toutside {
\t\tat $2 dia ${7:14}
\t\tat $3 dia ${8:12} smooth
\t}
\tfrom $2 {
\t\tdrill ${9:8} to ${10:65}
\t}$0
}",
    },
    Construct {
        place: Place::Item,
        label: "pen, whole",
        detail: "a pen with its joints and what is wanted of it",
        snippet: "pen ${1:heron} \"${2:Heron}\" {
\tscrew ${3:section.shank} into ${4:barrel.mouth}
\tclose ${5:cap.mouth} onto $4 {
\t\tseat $5 on ${6:barrel.shoulder}
\t\twant turns within ${7:0.75..2}
\t}
\twant length(capped) <= ${8:145}$0
}",
    },
    Construct {
        place: Place::Pen,
        label: "close, with its seat",
        detail: "the cap's joint, the faces meant to touch and the turns that are wanted",
        snippet: "close ${1:cap.mouth} onto ${2:barrel.mouth} {
\tseat $1 on ${3:barrel.shoulder}
\twant turns within ${4:0.75..2}$0
}",
    },
    Construct {
        place: Place::Pen,
        label: "screw, with its seat",
        detail: "a threaded joint and the faces meant to touch",
        snippet: "screw ${1:section.shank} into ${2:barrel.mouth} {
\tseat ${3:section.shoulder} on $2$0
}",
    },
];

/// The sizes to fill in, and what stands for them in a file in inches.
const IN_INCHES: &[(&str, &str)] = &[
    (":18}", ":3/4}"),
    (":80}", ":3}"),
    (":14}", ":0.55}"),
    (":12}", ":0.47}"),
    (":8}", ":5/16}"),
    (":65}", ":2.5}"),
    (":145}", ":5.75}"),
];

impl Construct {
    /// The snippet, in sizes of a file of this unit.
    fn snippet(&self, units: Units) -> String {
        let text = self.snippet.to_owned();
        match units {
            Units::Millimetres => text,
            Units::Inches => {
                let swap = |text: String, (mm, inch): &(&str, &str)| text.replace(mm, inch);
                IN_INCHES.iter().fold(text, swap)
            }
        }
    }
}

/// What can be begun here as a whole, in the unit of the file and with its faces to choose from.
pub(super) fn wholes(at: CompletionContext<'_>) -> Vec<Choice> {
    let (place, units) = (at.expected.place, at.cursor.file.units());
    let here = WHOLES.iter().filter(|whole| whole.place == place);
    here.map(|whole| {
        let bare = Choice::plain(
            whole.label,
            ChoiceKind::Whole,
            whole.detail,
            DocumentationKey::Nothing,
        );
        let snippet = whole.snippet(units);
        bare.snippet(match place {
            Place::Pen => with_faces(&snippet, &mut Stops::of(at, whole.label)),
            _ => snippet,
        })
    })
    .collect()
}

/// A snippet whose stops at a face are choices of those that there are.
fn with_faces(snippet: &str, stops: &mut Stops<'_>) -> String {
    let mut out = String::new();
    let mut rest = snippet;
    while let Some((before, after)) = rest.split_once("${") {
        out.push_str(before);
        let Some((stop, behind)) = after.split_once('}') else {
            return out + "${" + after;
        };
        let face = stop
            .split_once(':')
            .filter(|(_, it)| it.contains(".") && !it.contains(".."));
        let number = face.and_then(|(number, _)| number.parse().ok());
        let choices = number.map(|_| stops.choices("FACE")).unwrap_or_default();
        match number.filter(|_| !choices.is_empty()) {
            Some(number) => out.push_str(&stop_of(number, &choices)),
            None => out.push_str(&format!("${{{stop}}}")),
        }
        rest = behind;
    }
    out + rest
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A snippet as it reads with its stops left as they are.
    fn filled(snippet: &str) -> String {
        let mut named = std::collections::BTreeMap::new();
        let mut out = String::new();
        let mut rest = snippet;
        while let Some((before, after)) = rest.split_once('$') {
            out.push_str(before);
            rest = match after.strip_prefix('{') {
                Some(stop) => {
                    let (number, stop) = stop.split_once(':').unwrap();
                    let (written, rest) = stop.split_once('}').unwrap();
                    named.insert(number.to_owned(), written.to_owned());
                    out.push_str(written);
                    rest
                }
                None => {
                    let (number, rest) = after.split_at(1);
                    out.push_str(named.get(number).map_or("", String::as_str));
                    rest
                }
            };
        }
        out + rest
    }

    #[test]
    fn what_is_begun_as_a_whole_can_be_read_as_it_stands() {
        let units = [Units::Millimetres, Units::Inches];
        for (whole, units) in WHOLES.iter().flat_map(|it| units.map(|units| (it, units))) {
            let text = filled(&whole.snippet(units));
            let holds = |(mm, _): &(&str, &str)| whole.snippet(units).contains(mm);
            assert!(units == Units::Millimetres || !IN_INCHES.iter().any(holds));
            let text = match whole.place {
                Place::Pen => format!("pen heron {{\n{text}\n}}\n"),
                _ => text,
            };
            let parsed = quillet_syntax::parse(quillet_syntax::FileId::default(), &text);
            assert!(parsed.findings.is_empty(), "{text}\n{:?}", parsed.findings);
        }
    }
}
