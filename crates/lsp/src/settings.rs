//! The editor's settings, section `quillet`.

use crate::server_state::ServerState;
use crate::typing::SyntaxDelay;
use quillet_ide::{HintKinds, Settings, Units};
use serde_json::Value;
use std::collections::BTreeSet;
use std::path::PathBuf;
use std::sync::Arc;
use tower_lsp::Client;
use tower_lsp::lsp_types::ConfigurationItem;

/// Reads the settings an editor sent; what is missing or cannot be read keeps its default.
///
/// `pictures` is whether the editor is known to show them.
pub(crate) fn read(value: &Value, pictures: bool) -> Settings {
    let value = section(value);
    let usual = HintKinds::default();
    let hint = |kind: &str, usual: bool| value["hints"][kind].as_bool().unwrap_or(usual);
    Settings {
        units: match value["units"].as_str() {
            Some("mm") => Units::Millimetres,
            Some("in") => Units::Inches,
            Some("both") => Units::Both,
            _ => Units::File,
        },
        hints: HintKinds {
            walls: hint("walls", usual.walls),
            drills: hint("drills", usual.drills),
            tenons: hint("tenons", usual.tenons),
            conversions: hint("conversions", usual.conversions),
            rests: hint("rests", usual.rests),
            room: hint("room", usual.room),
        },
        pictures: value["pictures"].as_bool().unwrap_or(pictures),
        bench: value["bench"]
            .as_str()
            .filter(|bench| !bench.is_empty())
            .map(str::to_owned),
        compare_with: value["compareWith"].as_str().map(str::to_owned),
    }
}

/// How long syntax findings wait while their line is typed on.
fn syntax_delay(value: &Value) -> SyntaxDelay {
    let ms = section(value)["syntaxDelay"].as_u64();
    ms.map(SyntaxDelay::from_ms).unwrap_or_default()
}

/// Some editors send the section within an object of its name.
fn section(value: &Value) -> &Value {
    value.get("quillet").unwrap_or(value)
}

/// Asks the editor for its settings and takes them over.
pub(crate) async fn fetch(client: Client, server: Arc<ServerState>) {
    if !server.state().editor.has_settings {
        return;
    }
    let item = ConfigurationItem {
        scope_uri: None,
        section: Some("quillet".into()),
    };
    if let Ok(values) = client.configuration(vec![item]).await {
        changed(&server, values.first().unwrap_or(&Value::Null));
    }
}

/// Takes settings over; everything is shown anew where they differ.
pub(crate) fn changed(server: &ServerState, value: &Value) {
    let mut state = server.state();
    state.syntax_delay = syntax_delay(value);
    let settings = read(value, state.editor.shows_pictures);
    if *state.workspace.settings() == settings {
        return;
    }
    state.workspace.set_settings(settings);
    // What is being checked is checked by the settings that were.
    let checked: BTreeSet<PathBuf> = state
        .shown
        .roots()
        .into_iter()
        .chain(state.queue.running())
        .collect();
    for file in checked {
        let urgency = state.urgency(&file);
        state.queue.ask(&file, urgency);
    }
    state.refresh.want(true);
    drop(state);
    server.wake();
}

#[cfg(test)]
mod tests {
    use super::*;
    use serde_json::json;

    #[test]
    fn what_is_not_said_keeps_its_default() {
        assert_eq!(read(&Value::Null, false), Settings::default());
        assert_eq!(read(&json!({"hints": 7}), false), Settings::default());
        let settings = read(
            &json!({"quillet": {"units": "in", "hints": {"walls": false}, "bench": "saltings"}}),
            false,
        );
        assert_eq!(settings.units, Units::Inches);
        assert_eq!(
            settings.hints,
            HintKinds {
                walls: false,
                ..HintKinds::default()
            }
        );
        assert_eq!(settings.bench.as_deref(), Some("saltings"));
        // What takes its time is shown where it is asked for.
        assert!(!settings.hints.room);
        assert!(read(&json!({"hints": {"room": true}}), false).hints.room);
        // One that cannot be read does not take the others with it.
        let settings = read(&json!({"units": 7, "bench": "saltings"}), false);
        assert_eq!(
            (settings.units, settings.bench.is_some()),
            (Units::File, true)
        );
    }

    #[test]
    fn syntax_findings_wait_as_long_as_is_set() {
        let ms = |value| syntax_delay(&value).0.as_millis();
        assert_eq!(ms(json!({})), 300);
        assert_eq!(ms(json!({"syntaxDelay": "long"})), 300);
        assert_eq!(ms(json!({"quillet": {"syntaxDelay": 0}})), 0);
        assert_eq!(ms(json!({"syntaxDelay": 750})), 750);
        assert_eq!(ms(json!({"syntaxDelay": 3_600_000})), 10_000);
    }
}
