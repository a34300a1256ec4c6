//! The editor's settings, section `quillet`.

use crate::desk::Desk;
use crate::outbox::Outbox;
use quillet_ide::{HintKinds, Settings, Units};
use serde::Deserialize;
use serde_json::Value;
use std::sync::Arc;
use std::time::Duration;
use tower_lsp::Client;
use tower_lsp::lsp_types::ConfigurationItem;

/// Reads the settings an editor sent; what is missing or cannot be read keeps its default.
///
/// `pictures` is whether the editor is known to show them.
pub(crate) fn read(value: &Value, pictures: bool) -> Settings {
    // Some editors send the section within an object of its name.
    let value = value.get("quillet").unwrap_or(value);
    let said = Said::deserialize(value).unwrap_or_default();
    let hint = |kind: Option<bool>| kind.unwrap_or(true);
    Settings {
        units: match said.units.as_deref() {
            Some("mm") => Units::Millimetres,
            Some("in") => Units::Inches,
            _ => Units::Both,
        },
        hints: HintKinds {
            walls: hint(said.hints.walls),
            drills: hint(said.hints.drills),
            tenons: hint(said.hints.tenons),
            millimetres: hint(said.hints.millimetres),
            rests: hint(said.hints.rests),
        },
        pictures: said.pictures.unwrap_or(pictures),
        bench: said.bench.filter(|bench| !bench.is_empty()),
    }
}

/// Asks the editor for its settings and takes them over.
pub(crate) async fn fetch(client: Client, desk: Arc<Desk>, outbox: Outbox) {
    if !desk.state().editor.has_settings {
        return;
    }
    let item = ConfigurationItem {
        scope_uri: None,
        section: Some("quillet".into()),
    };
    let asked = client.configuration(vec![item]);
    if let Ok(Ok(values)) = tokio::time::timeout(PATIENCE, asked).await {
        changed(&desk, &outbox, values.first().unwrap_or(&Value::Null));
    }
}

/// Takes settings over; everything is shown anew where they differ.
pub(crate) fn changed(desk: &Desk, outbox: &Outbox, value: &Value) {
    let mut state = desk.state();
    let settings = read(value, state.editor.shows_pictures);
    if *state.workspace.settings() == settings {
        return;
    }
    state.workspace.set_settings(settings);
    for file in state.shown.roots() {
        let urgency = state.urgency(&file);
        state.queue.ask(&file, urgency);
    }
    outbox.refresh(&state);
    drop(state);
    desk.work.notify_one();
}

/// How long the editor's answer is waited for.
const PATIENCE: Duration = Duration::from_secs(10);

#[derive(Default, Deserialize)]
#[serde(default)]
struct Said {
    units: Option<String>,
    hints: SaidHints,
    pictures: Option<bool>,
    bench: Option<String>,
}

#[derive(Default, Deserialize)]
#[serde(default)]
struct SaidHints {
    walls: Option<bool>,
    drills: Option<bool>,
    tenons: Option<bool>,
    millimetres: Option<bool>,
    rests: Option<bool>,
}

#[cfg(test)]
mod tests {
    use super::*;
    use serde_json::json;

    #[test]
    fn what_is_not_said_keeps_its_default() {
        assert_eq!(read(&Value::Null, false), Settings::default());
        assert_eq!(read(&json!({"hints": 7}), false), Settings::default());
        let said = read(
            &json!({"quillet": {"units": "in", "hints": {"walls": false}, "bench": "saltings"}}),
            false,
        );
        assert_eq!(said.units, Units::Inches);
        assert_eq!(
            said.hints,
            HintKinds {
                walls: false,
                ..HintKinds::default()
            }
        );
        assert_eq!(said.bench.as_deref(), Some("saltings"));
    }
}
