//! The ends and named faces of a part.

use super::Resolver;
use super::name::offer;
use super::scope::duplicate;
use crate::{DefinitionKind, End, Part, PartFace};
use quillet_geometry::Length;
use quillet_syntax::ast;
use quillet_syntax::{Finding, Severity, Span};
use std::sync::Arc;

impl<'a> Resolver<'a> {
    /// The end of a name, recorded as used.
    pub(super) fn part_end(&mut self, part: &Part, name: &ast::Name) -> Option<End> {
        if let Some(end) = part.end(&name.text) {
            self.refer_face(part, name);
            return Some(end);
        }
        // That it is missing has been told where the text was read. A part that is cut is never
        // without ends but where its first line could not be read.
        if name.text.is_empty() || part.lacks_ends() {
            self.lost += 1;
            return None;
        }
        let ends: Vec<&str> = match &part.ends {
            Some(ends) => ends.iter().map(|end| &*end.text).collect(),
            None => Vec::new(),
        };
        let finding = Finding::new(
            "unknown-name",
            Severity::Error,
            name.span,
            format!("{} has no end called {}", part.name.text, name.text),
        );
        let hint = match ends.as_slice() {
            [a, b] => format!("its ends are {a} and {b}"),
            _ => "give it ends, as in: from mouth to crown".to_owned(),
        };
        let near = quillet_syntax::nearest(&name.text, ends);
        self.emit(offer(finding, name.span, near, &hint));
        None
    }

    /// Records a reference to one of a part's faces.
    pub(super) fn refer_face(&mut self, part: &Part, name: &ast::Name) {
        let face = part.face(&name.text).map(|face| face.name.span);
        let end = part.ends.iter().flatten().find(|end| end.text == name.text);
        let Some(target) = face.or(end.map(|end| end.span)) else {
            return;
        };
        if let Some(definition) = self.known.definitions.get(&target) {
            self.refer(name.span, *definition);
        }
    }

    pub(super) fn end_faces(&mut self, part: &mut Part, owner: &Arc<str>) {
        let Some(ends) = part.ends.clone() else {
            return;
        };
        let places = [(End::First, Length::ZERO), (End::Second, part.length)];
        for ((end, at), name) in places.into_iter().zip(ends) {
            self.define_once(DefinitionKind::Face, &name, name.span, owner);
            part.faces.push(PartFace {
                span: name.span,
                name,
                at,
                end: Some(end),
            });
        }
        if let [first, second] = &part.faces[..]
            && first.name.text == second.name.text
            && !first.name.text.is_empty()
        {
            let finding = duplicate(
                &second.name,
                DefinitionKind::Face,
                first.name.span,
                DefinitionKind::Face,
            );
            self.emit(finding);
        }
    }

    pub(super) fn named_faces(&mut self, part: &mut Part, owner: &Arc<str>) {
        let of_stations = part.stations.iter().filter_map(|station| {
            station
                .face
                .clone()
                .map(|name| (name, station.span, station.at))
        });
        let of_features = part.features.iter().filter_map(|feature| {
            let at = part.station(feature.end, feature.to);
            feature.face.clone().map(|name| (name, feature.span, at))
        });
        let named: Vec<_> = of_stations.chain(of_features).collect();
        for (name, span, at) in named {
            self.define_once(DefinitionKind::Face, &name, span, owner);
            if let Some(first) = part.face(&name.text) {
                let finding = duplicate(
                    &name,
                    DefinitionKind::Face,
                    first.name.span,
                    DefinitionKind::Face,
                );
                self.emit(finding);
                continue;
            }
            part.faces.push(PartFace {
                name,
                span,
                at,
                end: None,
            });
        }
    }

    /// Defines a name once, however often its part is resolved.
    pub(super) fn define_once(
        &mut self,
        kind: DefinitionKind,
        name: &ast::Name,
        item: Span,
        owner: &Arc<str>,
    ) -> crate::DefinitionId {
        let names = &mut self.design.names;
        let define = || names.define(kind, name, item, Some(owner.clone()));
        *self
            .known
            .definitions
            .entry(name.span)
            .or_insert_with(define)
    }
}
