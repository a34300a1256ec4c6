//! What to mind at an operation, in a maker's words.

use quillet_model::Units;
use quillet_plan::Note;

/// A note as a line of the route has it.
#[expect(
    clippy::too_many_lines,
    reason = "an arm a note: it is read as a table"
)]
pub(super) fn note(note: &Note, units: Units) -> String {
    match note {
        Note::LeftHandUnscrews => {
            "left-hand thread: forward rotation unscrews it; run in reverse, lightly".into()
        }
        Note::LeftHandThread => "left-hand thread: tap and die go on anticlockwise; a single point is fed from the headstock outward".into(),
        Note::ReverseUnscrews => "do not sand in reverse: it unscrews".into(),
        Note::IndexStarts {
            starts,
            pitch,
            turn_deg,
        } => format!(
            "{starts} starts: index {} by the compound, or {}° of spindle, between them",
            units.plain(*pitch),
            crate::write::number(*turn_deg, 2)
        ),
        Note::DubLips => {
            "a drill in a hole already there grabs: dub its lips, or hold it back".into()
        }
        Note::FlatBottomed => "flat bottom: no cone beyond the depth".into(),
        Note::BreaksThrough => "it breaks through: ease the feed".into(),
        Note::LetCool => "withdraw often and let it cool; a hot drill grabs".into(),
        Note::Cure => {
            "let the glue cure 24 h before any cut, or as its own data sheet says".into()
        }
        Note::CleanLine => "wipe the glue line clean, and keep it out of the bore".into(),
        Note::LineUp => "mark both and line the grain or pattern up before it sets".into(),
        Note::Degrease => "clean and roughen before gluing".into(),
        Note::UnderCoat { under } => format!(
            "turn to {} under each written diameter: the coat brings the rest",
            units.plain(*under)
        ),
        Note::Coat { name, thickness } => format!(
            "then the {name}, {} thick all over; joints and seats are masked",
            units.plain(*thickness)
        ),
        Note::SpeedUnknown => "no cutting speed is known for this material: begin slowly".into(),
        Note::ByCrank => "no step of the lathe leaves time to stop: turn the spindle by the crank, power off".into(),
        Note::HoldWork => {
            "hold the work while the tool or the trial piece backs out, else it unscrews".into()
        }
        Note::CentreBack => {
            "tail centre back, light cuts; in a collet that is drawn up or screwed on, never in a bare taper".into()
        }
        Note::UntilClean => "until clean".into(),
        Note::LongWithNub { length } => {
            format!("to {} over all, the nub counted", units.plain(*length))
        }
        Note::ShankGoesHome { dia, stays_out } => {
            let out = stays_out.map(|it| format!(", one of Ø{} does not", units.plain(it)));
            let goes = units.plain(*dia);
            format!("a shank or pin of Ø{goes} goes home{}", out.unwrap_or_default())
        }
        Note::ToTheHole { under, .. } => format!(
            "its hole as made is its measure: {} under it, on diameter",
            units.plain(*under)
        ),
        Note::ToSuit { mate, hole, drawn } => format!(
            "to suit the {mate}’s hole of Ø{}, as made: Ø{} as drawn",
            units.plain(*hole),
            units.plain(*drawn)
        ),
        Note::LevelWith { part } => format!("until part and {part} are level"),
        Note::FeedFromTouch { depth } => format!(
            "no caliper or pin reads it: feed {} from where the tool touches the hole",
            units.plain(*depth)
        ),
        Note::BeginsAt { clockwise } => {
            format!("begin it {clockwise} clockwise of the mark, looking at the end")
        }
        Note::Clock {
            positions,
            per_ten_deg,
        } => format!(
            "{positions} positions in which pattern and clip can line up; facing {} off the shoulder turns it 10°",
            units.plain(*per_ten_deg)
        ),
    }
}
