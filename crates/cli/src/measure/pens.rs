//! What a pen put together measures.

use quillet_check::{measure, spots};
use quillet_geometry::Angle;
use quillet_model::{
    Air, AtRest, Clearance, Configuration, Configured, Design, Engagement, Joint, Pen, StoppedBy,
    Touch, Want,
};
use serde::Serialize;
use std::fmt::Write;

/// A pen.
#[derive(Serialize)]
pub(super) struct PenMeasures {
    name: String,
    title: Option<String>,
    configurations: Configurations,
    joints: Vec<JointMeasures>,
    parts: Vec<PartPlaces>,
    ink: Option<InkMeasures>,
    air: Option<AirMeasures>,
    rings: Vec<RingMeasures>,
    wants: Vec<WantMeasures>,
    /// Parts that hang together with neither body nor cap.
    loose: Vec<String>,
}

#[derive(Serialize)]
struct Configurations {
    capped: Option<ConfigurationMeasures>,
    uncapped: Option<ConfigurationMeasures>,
    posted: Option<ConfigurationMeasures>,
}

/// From the writing point, or from the foremost face of a capped pen.
#[derive(Serialize)]
struct ConfigurationMeasures {
    length_mm: f64,
    /// Filled.
    mass_g: f64,
    balance_mm: f64,
    /// The balance point over the length.
    balance_share: f64,
    axial_g_mm2: f64,
    /// About the balance point.
    transverse_g_mm2: f64,
    dry_mass_g: f64,
    dry_balance_mm: f64,
}

#[derive(Serialize)]
struct JointMeasures {
    kind: &'static str,
    male: String,
    female: String,
    goes_in_mm: f64,
    stopped_by: &'static str,
    touches: Vec<TouchMeasures>,
    seat_gap_mm: Option<f64>,
    thread: Option<String>,
    overlap_mm: Option<f64>,
    travel_mm: Option<f64>,
    turns: Option<f64>,
    catch_deg: Option<f64>,
    clock_positions: Option<u32>,
    /// How far the male's mark rests clockwise of the female's, where both threads have a `clock`.
    marks_apart_deg: Option<f64>,
    /// What comes off a shoulder to turn the joint by ten degrees more.
    cut_for_10_deg_mm: Option<f64>,
    trapped: Vec<TrappedMeasures>,
    clearances: Vec<ClearanceMeasures>,
}

#[derive(Serialize)]
struct TouchMeasures {
    male: String,
    female: String,
    spare_mm: f64,
}

#[derive(Serialize)]
struct TrappedMeasures {
    part: String,
    length_mm: f64,
    room_mm: f64,
}

#[derive(Serialize)]
struct ClearanceMeasures {
    kind: &'static str,
    male: String,
    female: String,
    nominal_mm: f64,
    worst_mm: f64,
}

/// A part: what it weighs, and where its first end lies in each configuration.
#[derive(Serialize)]
struct PartPlaces {
    name: String,
    mass_g: Option<f64>,
    places: Vec<PlaceMeasures>,
}

#[derive(Serialize)]
struct PlaceMeasures {
    configuration: &'static str,
    at_mm: f64,
    reversed: bool,
}

#[derive(Serialize)]
struct InkMeasures {
    ml: f64,
    mass_g: f64,
    part: String,
}

#[derive(Serialize)]
struct AirMeasures {
    volume_mm3: f64,
    sealed_by: Option<TouchMeasures>,
}

#[derive(Serialize)]
struct RingMeasures {
    ring: String,
    part: String,
    squeeze: Option<f64>,
    stretch: Option<f64>,
    fill: Option<f64>,
}

#[derive(Serialize)]
struct WantMeasures {
    want: String,
    value: Option<String>,
    wanted: String,
    met: Option<bool>,
}

impl PenMeasures {
    pub(super) fn of(design: &Design, pen: &Pen) -> Self {
        let assembly = &pen.assembly;
        let configured = |it: Configured| assembly.configuration(it).map(ConfigurationMeasures::of);
        let name = |part: usize| pen.parts[part].name.text.to_string();
        let joints = pen.joints.iter().zip(&assembly.joints);
        let of_joints = pen.joints.iter().flat_map(|joint| &joint.wants);
        let wants = pen.wants.iter().chain(of_joints);
        Self {
            name: pen.name.text.to_string(),
            title: pen.title.as_ref().map(|title| title.text.to_string()),
            configurations: Configurations {
                capped: configured(Configured::Capped),
                uncapped: configured(Configured::Uncapped),
                posted: configured(Configured::Posted),
            },
            joints: joints
                .map(|(joint, rest)| JointMeasures::of(pen, joint, rest))
                .collect(),
            parts: (0..pen.parts.len())
                .map(|part| PartPlaces::of(pen, part))
                .collect(),
            ink: assembly.ink.as_ref().map(|ink| InkMeasures {
                ml: ink.capacity_ml,
                mass_g: ink.mass_g,
                part: name(ink.part),
            }),
            air: assembly.air.as_ref().map(|air| AirMeasures::of(pen, air)),
            rings: assembly
                .rings
                .iter()
                .map(|it| RingMeasures {
                    ring: it.ring.name.text.to_string(),
                    part: name(it.part),
                    squeeze: it.seal.map(|seal| seal.squeeze),
                    stretch: it.seal.map(|seal| seal.stretch),
                    fill: it.seal.map(|seal| seal.fill),
                })
                .collect(),
            wants: wants
                .map(|want| WantMeasures::of(design, pen, want))
                .collect(),
            loose: assembly
                .loose
                .iter()
                .flatten()
                .map(|part| name(*part))
                .collect(),
        }
    }

    /// A table for people.
    pub(super) fn write(&self, full: bool, out: &mut String) -> std::fmt::Result {
        let title = self
            .title
            .as_ref()
            .map_or(String::new(), |title| format!(" \"{title}\""));
        writeln!(out, "pen {}{title}", self.name)?;
        writeln!(
            out,
            "             length      mass   balance           dry mass  balance"
        )?;
        let rows = [
            ("capped", &self.configurations.capped),
            ("uncapped", &self.configurations.uncapped),
            ("posted", &self.configurations.posted),
        ];
        for (word, it) in rows {
            if let Some(it) = it {
                writeln!(
                    out,
                    "  {word:8} {:7.2} mm {:7.2} g {:6.2} mm {:5.1} %   {:7.2} g {:6.2} mm",
                    it.length_mm,
                    it.mass_g,
                    it.balance_mm,
                    it.balance_share * 100.0,
                    it.dry_mass_g,
                    it.dry_balance_mm,
                )?;
            }
        }
        if let Some(ink) = &self.ink {
            writeln!(
                out,
                "  ink      {:7.2} ml in {}, {:.2} g",
                ink.ml, ink.part, ink.mass_g
            )?;
        }
        if let Some(air) = &self.air {
            let sealed = air
                .sealed_by
                .as_ref()
                .map_or("not sealed".to_owned(), |touch| {
                    format!("sealed where {} meets {}", touch.male, touch.female)
                });
            writeln!(
                out,
                "  air      {:7.2} ml round the nib, {sealed}",
                air.volume_mm3 / 1000.0
            )?;
        }
        for ring in &self.rings {
            let percent = |share: Option<f64>| share.map_or(0.0, |share| share * 100.0);
            writeln!(
                out,
                "  ring     {} in {}: squeezed {:.0} %, stretched {:.1} %, fills {:.0} %",
                ring.ring,
                ring.part,
                percent(ring.squeeze),
                percent(ring.stretch),
                percent(ring.fill),
            )?;
        }
        for part in &self.loose {
            writeln!(out, "  loose    {part}")?;
        }
        for joint in &self.joints {
            joint.write(full, out)?;
        }
        for want in &self.wants {
            let met = match want.met {
                Some(true) => "met",
                Some(false) => "NOT met",
                None => "not known",
            };
            let value = want.value.as_deref().unwrap_or("?");
            writeln!(
                out,
                "  want     {} is {value}; {}: {met}",
                want.want, want.wanted
            )?;
        }
        writeln!(out)
    }
}

impl ConfigurationMeasures {
    fn of(it: &Configuration) -> Self {
        Self {
            length_mm: it.length_mm,
            mass_g: it.filled.mass_g,
            balance_mm: it.filled.centre_mm,
            balance_share: it.balance_share(),
            axial_g_mm2: it.filled.axial_g_mm2,
            transverse_g_mm2: it.filled.transverse_g_mm2,
            dry_mass_g: it.dry.mass_g,
            dry_balance_mm: it.dry.centre_mm,
        }
    }
}

impl JointMeasures {
    fn of(pen: &Pen, joint: &Joint, rest: &AtRest) -> Self {
        let end = |end: quillet_model::JointEnd| {
            let part = &pen.parts[end.part];
            format!("{}.{}", part.name.text, part.end_name(end.end))
        };
        let threads: Option<&Engagement> = rest.engagements.first();
        let cut = |it: &Engagement| it.shoulder_cut(quillet_model::TEN_DEGREES).to_mm();
        Self {
            kind: joint.verb.word(),
            male: end(joint.male),
            female: end(joint.female),
            goes_in_mm: rest.goes_in_mm,
            stopped_by: match rest.stopped_by {
                _ if rest.redundant => "other joints",
                StoppedBy::Contact => "contact",
                StoppedBy::Overlap => "overlap",
                StoppedBy::Nothing => "nothing",
            },
            touches: rest
                .touches
                .iter()
                .map(|it| TouchMeasures::of(pen, it))
                .collect(),
            seat_gap_mm: rest.seat_gap_mm,
            thread: threads.map(|it| it.form.to_string()),
            overlap_mm: threads.map(|it| it.overlap_mm),
            travel_mm: threads.map(|it| it.travel_mm),
            turns: threads.map(Engagement::turns),
            catch_deg: threads.map(|it| it.catches_within().to_deg()),
            clock_positions: threads.map(Engagement::clock_positions),
            marks_apart_deg: threads.and_then(|it| it.marks_apart).map(Angle::to_deg),
            cut_for_10_deg_mm: threads.map(cut),
            trapped: rest
                .trapped
                .iter()
                .map(|it| TrappedMeasures {
                    part: pen.parts[it.part].name.text.to_string(),
                    length_mm: it.length_mm,
                    room_mm: it.room_mm,
                })
                .collect(),
            clearances: rest
                .clearances
                .iter()
                .map(|it| ClearanceMeasures::of(pen, it))
                .collect(),
        }
    }

    fn write(&self, full: bool, out: &mut String) -> std::fmt::Result {
        writeln!(
            out,
            "  {:6} {} in {}: {:.2} mm in, stopped by {}",
            self.kind, self.male, self.female, self.goes_in_mm, self.stopped_by
        )?;
        for touch in &self.touches {
            writeln!(out, "         touches  {} | {}", touch.male, touch.female)?;
        }
        if let Some(gap) = self.seat_gap_mm {
            writeln!(out, "         seat     {gap:.2} mm apart")?;
        }
        if let (Some(thread), Some(overlap), Some(travel), Some(turns)) =
            (&self.thread, self.overlap_mm, self.travel_mm, self.turns)
        {
            writeln!(
                out,
                "         thread   {thread}: overlap {overlap:.2} mm, travel {travel:.2} mm, {turns:.2} turns; \
                 catches within {:.0}°, {} ways round",
                self.catch_deg.unwrap_or_default(),
                self.clock_positions.unwrap_or_default(),
            )?;
            if let Some(apart) = self.marks_apart_deg {
                writeln!(out, "         marks    {apart:.0}° apart")?;
            }
        }
        for it in &self.trapped {
            writeln!(
                out,
                "         trapped  {} at {:.2} mm, {:.2} mm of room",
                it.part, it.length_mm, it.room_mm
            )?;
        }
        for it in self.clearances.iter().filter(|_| full) {
            writeln!(
                out,
                "         {:8} {:6.2} mm, {:6.2} at worst: {} | {}",
                it.kind, it.nominal_mm, it.worst_mm, it.male, it.female
            )?;
        }
        Ok(())
    }
}

impl TouchMeasures {
    fn of(pen: &Pen, touch: &Touch) -> Self {
        Self {
            male: spots::words(pen, &touch.male),
            female: spots::words(pen, &touch.female),
            spare_mm: touch.spare_mm,
        }
    }
}

impl ClearanceMeasures {
    fn of(pen: &Pen, it: &Clearance) -> Self {
        Self {
            kind: it.kind.word(),
            male: spots::words(pen, &it.male),
            female: spots::words(pen, &it.female),
            nominal_mm: it.nominal_mm,
            worst_mm: it.least_mm,
        }
    }
}

impl PartPlaces {
    fn of(pen: &Pen, part: usize) -> Self {
        let place = |it: Configured| {
            let place = pen.assembly.configuration(it)?.places[part]?;
            Some(PlaceMeasures {
                configuration: it.word(),
                at_mm: place.offset_mm,
                reversed: place.reversed,
            })
        };
        Self {
            name: pen.parts[part].name.text.to_string(),
            mass_g: pen.assembly.weights[part].map(|it| it.mass_g),
            places: Configured::ALL.into_iter().filter_map(place).collect(),
        }
    }
}

impl AirMeasures {
    fn of(pen: &Pen, air: &Air) -> Self {
        let seal = air.seal.as_ref().filter(|_| !air.open_ended);
        Self {
            volume_mm3: air.volume_mm3,
            sealed_by: seal.map(|touch| TouchMeasures::of(pen, touch)),
        }
    }
}

impl WantMeasures {
    fn of(design: &Design, pen: &Pen, want: &Want) -> Self {
        let measured = measure::of_pen(pen, want);
        Self {
            want: design.text(want.measure.span).to_owned(),
            value: measured.value.map(measure::told),
            wanted: measured.wanted,
            met: measured.met,
        }
    }
}
