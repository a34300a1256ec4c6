//! `quillet-fuzz TARGET [--count N] [--seconds S] [--seed N]`, or `quillet-fuzz TARGET FILE…` for
//! inputs that were kept.
//!
//! Ends with 1 and the seed of the input where one panics, takes too long or too much memory; the
//! input itself is written beside, as `failed-TARGET-SEED`.

#![allow(
    clippy::print_stdout,
    clippy::print_stderr,
    reason = "a program that reports on a terminal"
)]

use quillet_fuzz::{Corpus, Dice, TARGETS, Target, mutated, target};
use std::process::ExitCode;
use std::sync::atomic::{AtomicBool, AtomicU64, Ordering};
use std::sync::{Arc, Mutex, PoisonError};
use std::time::{Duration, Instant};

/// As the shipped program has it.
#[global_allocator]
static ALLOCATOR: mimalloc::MiMalloc = mimalloc::MiMalloc;

/// No input of this size takes longer at work, even in a debug build.
const LONGEST: Duration = Duration::from_secs(20);

/// Nor longer by the clock, were the machine as busy as it may be.
const LONGEST_BY_THE_CLOCK: Duration = Duration::from_secs(300);

/// Nor more memory, MB.
const MOST_MB: u64 = 1500;

/// A thread, this or another, has panicked.
static PANICKED: AtomicBool = AtomicBool::new(false);

fn main() -> ExitCode {
    let args: Vec<String> = std::env::args().skip(1).collect();
    let Some(target) = args.first().and_then(|name| target(name)) else {
        let names: Vec<&str> = TARGETS.iter().map(|target| target.name).collect();
        eprintln!(
            "quillet-fuzz {} [--count N] [--seconds S] [--seed N] [FILE…]",
            names.join("|")
        );
        return ExitCode::from(2);
    };
    let option = |flag: &str, usual: u64| {
        let at = args.iter().position(|arg| arg == flag);
        at.and_then(|at| args.get(at + 1)?.parse().ok())
            .unwrap_or(usual)
    };
    let count = option("--count", u64::MAX);
    let until = Instant::now() + Duration::from_secs(option("--seconds", 60));
    let watch = Arc::new(Watch::new(target.name));
    watch.clone().begin();
    std::panic::set_hook(Box::new(|about| {
        PANICKED.store(true, Ordering::SeqCst);
        eprintln!("{about}");
    }));
    let files: Vec<_> = args[1..]
        .iter()
        .filter(|arg| std::path::Path::new(arg).is_file())
        .collect();
    if !files.is_empty() {
        let fine = files
            .iter()
            .all(|file| watch.try_one(target, 0, std::fs::read(file).unwrap_or_default()));
        return if fine {
            ExitCode::SUCCESS
        } else {
            ExitCode::FAILURE
        };
    }
    fuzz(target, &watch, option("--seed", 1), count, until)
}

fn fuzz(target: Target, watch: &Watch, seed: u64, count: u64, until: Instant) -> ExitCode {
    let corpus: Corpus = (target.corpus)();
    let begun = Instant::now();
    let mut done = 0;
    let mut bytes = 0;
    // First what it is all made from, as it is.
    let mut whole = corpus.whole.iter();
    while done < count && Instant::now() < until {
        let number = seed.wrapping_add(done);
        let text = whole.next().cloned();
        let text = text.unwrap_or_else(|| mutated(&corpus, &mut Dice::new(number)));
        bytes += text.len();
        if !watch.try_one(target, number, text.into_bytes()) {
            return ExitCode::FAILURE;
        }
        done += 1;
    }
    println!(
        "{}: {done} inputs ({} MB) from seed {seed} in {:.0} s, slowest {} ms, at most {} MB: none failed",
        target.name,
        bytes / 1_000_000,
        begun.elapsed().as_secs_f64(),
        watch.slowest_us.load(Ordering::SeqCst) / 1000,
        watch.most_mb.load(Ordering::SeqCst),
    );
    ExitCode::SUCCESS
}

/// An input that is being read.
#[derive(Clone)]
struct Reading {
    begun: Instant,
    /// How long the process had worked by then.
    worked: Option<Duration>,
    number: u64,
    input: Arc<Vec<u8>>,
}

impl Reading {
    /// A process that others keep waiting is not one that never ends.
    fn is_too_long(&self) -> bool {
        let by_the_clock = self.begun.elapsed();
        let worked = worked()
            .zip(self.worked)
            .map(|(now, then)| now.saturating_sub(then));
        worked.unwrap_or(by_the_clock) > LONGEST || by_the_clock > LONGEST_BY_THE_CLOCK
    }
}

/// What is being read now, so that what never ends can be told.
struct Watch {
    name: &'static str,
    now: Mutex<Option<Reading>>,
    slowest_us: AtomicU64,
    most_mb: AtomicU64,
}

impl Watch {
    fn new(name: &'static str) -> Watch {
        Watch {
            name,
            now: Mutex::new(None),
            slowest_us: AtomicU64::new(0),
            most_mb: AtomicU64::new(0),
        }
    }

    /// Whether an input is read as it must be.
    fn try_one(&self, target: Target, number: u64, input: Vec<u8>) -> bool {
        let input = Arc::new(input);
        let begun = Instant::now();
        *self.lock() = Some(Reading {
            begun,
            worked: worked(),
            number,
            input: input.clone(),
        });
        let ran = std::panic::catch_unwind(|| (target.run)(&input));
        *self.lock() = None;
        let took = u64::try_from(begun.elapsed().as_micros()).unwrap_or(u64::MAX);
        self.slowest_us.fetch_max(took, Ordering::SeqCst);
        let fine = ran.is_ok() && !PANICKED.load(Ordering::SeqCst);
        if !fine {
            self.report("panics", number, &input);
        }
        fine
    }

    /// Looks from time to time whether one input takes too much of anything.
    fn begin(self: Arc<Self>) {
        std::thread::spawn(move || {
            loop {
                std::thread::sleep(Duration::from_millis(200));
                let memory = memory_mb();
                self.most_mb.fetch_max(memory, Ordering::SeqCst);
                let Some(reading) = self.lock().clone() else {
                    continue;
                };
                let why = match () {
                    () if reading.is_too_long() => "does not end",
                    () if memory > MOST_MB => "takes too much memory",
                    () => continue,
                };
                self.report(why, reading.number, &reading.input);
                std::process::exit(1);
            }
        });
    }

    fn report(&self, why: &str, number: u64, input: &[u8]) {
        let file = format!("failed-{}-{number}", self.name);
        let kept = std::fs::write(&file, input);
        eprintln!(
            "{}: the input of seed {number} {why}; see {file} ({kept:?})",
            self.name
        );
    }

    fn lock(&self) -> std::sync::MutexGuard<'_, Option<Reading>> {
        self.now.lock().unwrap_or_else(PoisonError::into_inner)
    }
}

/// How long the process has worked, all its threads together, where the system tells.
fn worked() -> Option<Duration> {
    let about = std::fs::read_to_string("/proc/self/stat").ok()?;
    // Behind the command, which may hold anything, the 12th and 13th: ticks of 10 ms (proc(5)).
    let mut fields = about.rsplit_once(')')?.1.split_whitespace().skip(11);
    let ticks = |field: &str| field.parse::<u64>().ok();
    let sum = ticks(fields.next()?)? + ticks(fields.next()?)?;
    Some(Duration::from_millis(sum * 10))
}

/// What the process holds now, where the system tells.
fn memory_mb() -> u64 {
    let about = std::fs::read_to_string("/proc/self/status").unwrap_or_default();
    let line = about.lines().find_map(|line| line.strip_prefix("VmRSS:"));
    let kb = line.and_then(|line| line.trim().strip_suffix(" kB")?.parse::<u64>().ok());
    kb.unwrap_or(0) / 1000
}
