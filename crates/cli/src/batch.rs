//! Which pens of a file are made, and how many of each: `--pen heron:12`.

use quillet_model::{Design, Pen};

/// Which pens of a file, and how many of each.
#[derive(clap::Args)]
pub(crate) struct BatchChoice {
    /// The pen, where the file has several; how many after a colon, as heron:12; as often as wanted
    #[arg(long, value_name = "NAME[:N]")]
    pen: Vec<String>,
}

/// More of one pen than this is no bench's batch.
const MOST: u32 = 500;

/// A pen with how many of it are made.
pub(crate) type Counted<'d> = (&'d Pen, u32);

impl BatchChoice {
    /// Whether pens are made together: several named, or more than one of one.
    pub(crate) fn is_batch(&self) -> bool {
        self.pen.len() > 1 || self.pen.iter().any(|it| it.contains(':'))
    }

    /// The pens that are meant: those named, each once with its count, or all that the file defines
    /// itself, one of each.
    ///
    /// # Errors
    ///
    /// A sentence that names the pens there are, or says what count was expected.
    pub(crate) fn pens<'d>(&self, design: &'d Design) -> Result<Vec<Counted<'d>>, String> {
        if self.pen.is_empty() {
            let all = quillet_pen::pens(design, None)?;
            return Ok(all.into_iter().map(|pen| (pen, 1)).collect());
        }
        let mut counted: Vec<Counted> = Vec::new();
        for asked in &self.pen {
            let (name, count) = read(asked)?;
            for pen in quillet_pen::pens(design, Some(name))? {
                match counted.iter_mut().find(|(it, _)| std::ptr::eq(*it, pen)) {
                    Some((_, known)) => *known += count,
                    None => counted.push((pen, count)),
                }
            }
        }
        match counted.iter().find(|(_, count)| *count > MOST) {
            Some((pen, count)) => Err(too_many(&pen.name.text, *count)),
            None => Ok(counted),
        }
    }
}

fn too_many(pen: &str, count: u32) -> String {
    format!("--pen {pen}:{count}: from 1 to {MOST} was expected")
}

fn read(asked: &str) -> Result<(&str, u32), String> {
    let Some((name, count)) = asked.split_once(':') else {
        return Ok((asked, 1));
    };
    match count.trim().parse() {
        Ok(count @ 1..=MOST) => Ok((name.trim(), count)),
        _ => Err(format!(
            "--pen {asked}: how many was expected after the colon, from 1 to {MOST}"
        )),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_count_stands_behind_a_colon() {
        assert_eq!(read("heron"), Ok(("heron", 1)));
        assert_eq!(read("heron:12"), Ok(("heron", 12)));
        for wrong in ["heron:", "heron:0", "heron:501", "heron:-1", "heron:x"] {
            assert!(read(wrong).is_err_and(|it| it.contains("from 1 to 500")));
        }
    }
}
