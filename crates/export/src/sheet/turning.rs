//! Mandrels and plugs to turn: what each is for, its sizes, how it is made.

use super::content::Turning;
use super::row_words::{dia_of, thread_name};
use super::words::letter;
use quillet_geometry::Length;
use quillet_model::Units;
use quillet_plan::{Fitted, Mandrel, MandrelKind, MandrelStep, Plan};

/// Mandrels and plugs with their sizes and how each is turned.
pub(super) fn turning(plan: &Plan, units: Units) -> Vec<Turning> {
    let each = plan.mandrels.with_ids().map(|(at, it)| Turning {
        letter: letter(at),
        serves: match it.under_die {
            Some(dia) => format!(
                "{}; the die passes {}",
                serves(plan, it),
                dia_of(units, dia)
            ),
            None => serves(plan, it),
        },
        sizes: sizes(it, units),
        steps: steps(it, units),
        mandrel: it.clone(),
    });
    each.collect()
}

fn serves(plan: &Plan, it: &Mandrel) -> String {
    let each = it.serves.iter().map(|(part, end)| {
        let route = plan
            .routes
            .iter()
            .find(|route| route.part.name.text == *part);
        let end = route.map_or("", |route| route.part.end_name(*end));
        format!("{part}’s {end}")
    });
    let serves: Vec<String> = each.collect();
    let plug = if it.kind == MandrelKind::Plug {
        "plug in the "
    } else {
        ""
    };
    let left = if it.left_hand { "; left hand" } else { "" };
    format!("{plug}{}{left}", serves.join(", "))
}

/// In the order of the steps of its picture: shoulder, spigot at it, thread, spigot in front.
fn sizes(it: &Mandrel, units: Units) -> Vec<String> {
    let plain = |it: Length| units.plain(it);
    let fitted = |it: &Fitted| format!("{} × {}", dia_of(units, it.dia), plain(it.length));
    let thread = it.thread.as_ref().map(|thread| {
        let (name, starts) = thread_name(&thread.thread);
        format!("{name} {starts}").trim().to_owned()
    });
    let shoulder = match it.kind {
        MandrelKind::Female => format!("nose {}", dia_of(units, it.shoulder)),
        _ if it.shoulder.is_positive() => dia_of(units, it.shoulder),
        _ => String::new(),
    };
    let mut all = vec![shoulder];
    if it.kind == MandrelKind::Female {
        all.extend(thread);
        return all;
    }
    all.extend(it.root_spigot.iter().map(fitted));
    let relief = it.relief.as_ref().map(fitted);
    all.extend(relief.map(|it| format!("{it} relief")));
    all.extend(thread);
    all.extend(it.front_spigot.iter().map(fitted));
    all
}

/// How it is made, in order; what belongs together in one line.
fn steps(it: &Mandrel, units: Units) -> Vec<String> {
    use MandrelStep::*;
    let plain = |it: Length| units.plain(it);
    let dia = |it: Length| dia_of(units, it);
    let spigot = |it: &Fitted| format!("{} for {}", dia(it.dia), plain(it.length));
    let steps = it.steps();
    let has = |step: MandrelStep| steps.contains(&step);
    let long = it.shank_length + it.reach();
    let pin = it.kind == MandrelKind::Plug && it.thread.is_none();
    let stock = dia(it.stock);
    if let Some(own) = it.front_spigot.filter(|_| pin) {
        return vec![match it.centred {
            true => format!("rod {stock}: {}, a centre in its head", spigot(&own)),
            false => format!(
                "rod {} × {}, to the hole as made",
                dia(own.dia),
                plain(long)
            ),
        }];
    }
    let mut all = vec![match it.headless {
        true => format!("rod {stock}: a stud {} long, slotted", plain(it.reach())),
        false => format!(
            "rod {stock} × {}: shank {} first",
            plain(long + Length::mm(5.0)),
            dia(it.shank)
        ),
    }];
    let turned = [&it.front_spigot, &it.root_spigot].into_iter().flatten();
    let turned = turned.map(spigot);
    let relief = it.relief.as_ref();
    let relief = relief.map(|it| format!("relief {}", spigot(it)));
    let turned: Vec<String> = turned.chain(relief).collect();
    if !turned.is_empty() {
        all.push(format!("turn {}", turned.join(", ")));
    }
    if let Some(bore) = it.bore.filter(|_| has(Hole)) {
        all.push(format!("drill {} to {}", dia(bore.dia), plain(bore.length)));
    }
    let female = it.kind == MandrelKind::Female;
    let thread = it.thread.as_ref().map(|thread| {
        let (name, starts) = thread_name(&thread.thread);
        let verb = if female { "tap" } else { "cut" };
        format!("{verb} {name} {starts}").trim().to_owned()
            + &format!(" for {}", plain(it.thread_length))
    });
    let what = if female { "nose" } else { "shoulder" };
    let shoulder = has(Shoulder).then(|| format!("{what} {}", dia(it.shoulder)));
    let last: Vec<String> = thread.into_iter().chain(shoulder).collect();
    if !last.is_empty() {
        all.push(last.join("; "));
    }
    if has(Centre) {
        all.push("a centre in its end".into());
    }
    if it.touched {
        all.push("in brass: the last cut may touch it".into());
    }
    all
}
