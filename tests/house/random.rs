//! Random tests beside the code keep what fails where those of the test binaries do: under `tests/`.

use std::fs;
use std::path::Path;

use crate::layers::rust_files;

#[test]
fn every_random_test_beside_the_code_says_where_what_fails_is_kept() {
    let mut files = Vec::new();
    rust_files(
        &Path::new(env!("CARGO_MANIFEST_DIR")).join("src"),
        &mut files,
    );
    let mut blocks = 0;
    for file in files {
        let text = fs::read_to_string(&file).unwrap();
        for block in text.split("proptest! {\n").skip(1) {
            let first = block.lines().next().unwrap();
            assert!(
                first.contains("proptest_config") && first.contains("random::kept()"),
                "{}: {first}",
                file.display()
            );
            blocks += 1;
        }
    }
    assert!(blocks > 0, "the random tests are found at all");
}
