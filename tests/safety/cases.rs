//! Every fault a user once met, and the test that keeps it away. A name of one `::` stands in this folder, one with a path under `tests/`.
//!
//! | what happened | kept by |
//! |---|---|
//! | readings in feet, inches or millimetres under another unit gave a plan for a member that does not exist | `readings::a_slip_of_the_unit_of_places_is_asked_about` |
//! | readings of one metre of nine were accepted as the whole member | `readings::a_part_of_the_member_is_not_taken_for_the_whole` |
//! | camber in metres, of 10¹⁸ mm, of −10³⁰⁸ mm was planned for; toes wider than the flange | `readings::offsets_and_toes_stay_on_the_member` |
//! | a string that hangs 600 km, steel of −500 °C or molten, places off the member in `keep off` and `lay on` | `readings::what_the_front_says_is_bounded_like_a_job` |
//! | stations next to nothing apart took 34 GB and aborted | `readings::places_that_are_one_are_no_member` |
//! | one station 18 mm off its neighbours, three stations, a bow nothing explains: a plan without a word | `readings::odd_readings_are_asked_about_and_stand_once_they_were_checked` |
//! | an order list, a job, a shop file replaced by the output of the command that read it | `writing::nothing_is_written_onto_a_file_that_was_read` |
//! | a file of another replaced by an output | `writing::a_file_of_another_stays_unless_it_is_asked_for` |
//! | a picture of another replaced by a chart | `writing::charts_of_another_stay_and_ours_are_drawn_anew` |
//! | the null device, a pipe replaced by a file | `writing::devices_and_pipes_are_written_into_and_stay_what_they_are` |
//! | a link replaced, what it leads to left old | `writing::links_are_followed_and_kept` |
//! | a write-protected file overwritten, a private one made public, the umask ignored | `writing::permissions_stay_and_new_files_get_what_the_umask_leaves` |
//! | 64 million drawn pieces, an order of millions: aborted for want of memory | `limits::pieces_that_no_memory_holds_are_refused_before_any_is_drawn` |
//! | a hundred axes of a million steps held every value; thousands aborted | `limits::axes_of_many_steps_take_no_memory` |
//! | `nan` and `inf` taken for "not set"; two axes that set one thing | `results::axes_that_cannot_be_are_refused` |
//! | a line end in a label made a resumed run lose cases | `words::labels_of_a_study_are_cleaned_and_harmless_in_its_rows` |
//! | rows deleted, doubled, swapped, edited, blanked, a head damaged: taken for computed | `results::a_changed_row_is_found_and_nothing_is_written_over_it` |
//! | rows of two models mixed by a resumed run | `results::rows_of_another_build_are_not_mixed_with_these` |
//! | rows written through a link into another's file; a pipe that hangs | `results::rows_go_through_no_link_and_into_no_pipe` |
//! | a good whole replaced before its parts were checked | `results::merge_never_touches_a_good_whole_and_takes_no_damaged_part` |
//! | parts of nothing, or of 10¹⁹, emptied the table or never ended | `results::a_division_that_cannot_be_is_refused` |
//! | escape sequences and forged lines in titles, marks, families, shops | `words::titles_marks_and_labels_are_shown_in_one_line` |
//! | the same in titles, lessons and labels of a study and on a page | `words::a_study_and_a_page_show_hostile_words_harmlessly` |
//! | the same in what complaints quote: keys, values, file names, options | `words::files_that_are_wrong_are_quoted_harmlessly` |
//! | places every 10 mm ended at 5 m of 9 m | `joints::an_option_with_a_wrong_value_is_a_wrong_command_line` |
//! | charts of jobs of one file name drawn over each other | `writing::jobs_of_one_name_do_not_draw_over_each_other` |
//! | a flange narrower than the web, thicker than wide, a leg of 24 mm on 5 mm: "in order" | `joints::no_level_takes_a_joint_that_cannot_be` |
//! | a warning about a plate that is not there | `joints::a_warning_names_a_plate_that_is_there` |
//! | a sweep of 4 km on 100 m, with ± | `limits::results_outside_the_model_are_no_numbers` |
//! | such results judged, ordered for, drawn from | `limits::whoever_judges_a_prediction_asks_whether_it_is_one` |
//! | a seam welded on 4 m of 9: "in order"; stitches seen nowhere | `joints::open_stretches_and_stitches_are_shown` |
//! | no thread to be had: a panic | `limits::one_thread_is_enough` |
//! | a full disk left an empty job; a limit on file sizes killed | `writing::new_writes_all_or_nothing` |
//! | a line of action 10¹⁴ mm beside the member | `limits::a_line_of_action_lies_on_the_member` |
//! | formulas in marks and families run by a spreadsheet | `words::a_spreadsheet_runs_nothing` |
//! | files of many mistakes took minutes | `limits::many_mistakes_take_no_longer_than_few` |
//! | a pipe without a writer waited for ever | `readings::a_pipe_without_a_writer_is_said_and_one_with_a_writer_is_read` |
//! | an interrupt ended one study and began the next | `limits::an_interrupt_ends_all_studies_of_a_command` |
//! | two studies of one name ended the run | `limits::two_studies_of_one_name_do_not_share_files_and_do_not_stop_the_others` |
//! | an order was computed for a file that could not be written, and named by its temporary name | `writing::outputs_are_looked_at_before_anything_is_computed` |
//! | files of a merge that was killed stayed for ever | `results::merge_never_touches_a_good_whole_and_takes_no_damaged_part` |
//! | paragraphs and complaints wider than the terminal; colours on a dumb one | `terminal/narrow::nothing_is_wider_than_a_narrow_terminal` |
//! | numbers of three hundred digits | `words::numbers_are_written_in_a_few_figures` |
//! | a title and a key of half a megabyte printed whole | `words::long_names_are_cut` |
//! | nesting, line ends, empty files, a device called what they are not; a week 53 that is none | `complaints::odd_files_are_called_what_they_are` |
//! | a chart that could not be drawn found out after all rows; no place of a missing table | `complaints::what_is_missing_or_cannot_be_shown_is_said_with_its_place` |
//! | weeks a hundred years apart in one list | `complaints::odd_files_are_called_what_they_are` |
//! | wrong option values ended with the status of a wrong file | `joints::an_option_with_a_wrong_value_is_a_wrong_command_line` |
//! | a thick short member solved for minutes, then refused | `limits::thick_short_members_are_solved_soon` |
//! | an order list that names a private file got its lines quoted | `complaints::a_file_that_is_no_job_is_not_quoted_at_length` |
//! | complaints that no program could read | `complaints::problems_have_their_place_and_what_is_wanted`, `complaints::a_wrong_command_line_is_an_object_too` |
//! | a killed study lost or changed rows | `kills::a_killed_study_ends_in_the_same_bytes` |
//! | random damage of every kind of input | `fuzz/main::jobs`, `fuzz/main::studies`, `fuzz/main::shops`, `fuzz/main::measured_pieces`, `fuzz/main::lists`, `fuzz/main::plans` |

use std::fs::read_to_string;
use std::path::Path;

#[test]
fn every_case_has_its_test() {
    let tests = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests");
    let rows = include_str!("cases.rs").lines().filter(|line| line.starts_with("//! | "));
    let mut found = 0;
    for row in rows.filter(|row| row.contains("::")) {
        let names = row.split('`').skip(1).step_by(2).filter(|name| name.contains("::"));
        let names: Vec<&str> = names.collect();
        assert!(!names.is_empty(), "{row}");
        for name in names {
            let (file, test) = name.split_once("::").unwrap();
            let file = if file.contains('/') { file.to_owned() } else { format!("safety/{file}") };
            let text =
                read_to_string(tests.join(format!("{file}.rs"))).unwrap_or_else(|e| panic!("{file}: {e}"));
            assert!(text.contains(&format!("fn {test}()")), "no test {test} in {file}");
            found += 1;
        }
    }
    assert!(found > 45, "{found} tests of the table were found");
}
