#![no_main]
libfuzzer_sys::fuzz_target!(|bytes: &[u8]| {
    let target = quillet_fuzz::target("check").expect("a target");
    (target.run)(bytes);
});
