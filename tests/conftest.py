"""The tests run in as many processes as there are processors; benchmarks run alone and print what they measure."""


def pytest_xdist_auto_num_workers(config):
    return 0 if config.option.markexpr == "benchmark" else None
