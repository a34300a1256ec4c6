#![no_main]
libfuzzer_sys::fuzz_target!(|bytes: &[u8]| {
    let target = quillet_fuzz::target("edits").expect("a target");
    (target.run)(bytes);
});
