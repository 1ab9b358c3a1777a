"""What the commands show their answers with: tables, charts, pictures, the app; loaded when they are asked for."""

# What it imports is what it gives:
# pyright: reportUnusedImport=false

from typing import TYPE_CHECKING

from toptank.units.late import late_names

if TYPE_CHECKING:
    from rich.console import Console

    from toptank.interfaces.cli.chart import check_chart_file, write_chart
    from toptank.interfaces.cli.fleet_chart import write_fleet_chart
    from toptank.interfaces.cli.tables import table
    from toptank.interfaces.cli.tables.choose_table import show_choice, show_prices
    from toptank.interfaces.cli.tables.coolant_table import show_bleeding, show_cap, show_water
    from toptank.interfaces.cli.tables.diagnose_table import show_causes, show_checks, show_diagnosis, show_evaluation
    from toptank.interfaces.cli.tables.drive_table import show_drive
    from toptank.interfaces.cli.tables.fit_table import show_fit
    from toptank.interfaces.cli.tables.fleet_table import show_fleet
    from toptank.interfaces.cli.tables.forecast_table import show_forecast
    from toptank.interfaces.cli.tables.heard_table import show_heard
    from toptank.interfaces.cli.tables.job_table import show_history, show_job, show_jobs
    from toptank.interfaces.cli.tables.log_table import show_log, show_verdict
    from toptank.interfaces.cli.tables.mix_table import show_mix
    from toptank.interfaces.cli.tables.summary_table import (
        show_choice_summary,
        show_demo_summary,
        show_diagnosis_summary,
        show_drive_summary,
        show_forecast_summary,
        show_verdict_summary,
    )
    from toptank.interfaces.cli.tables.table import show_notes
    from toptank.interfaces.cli.tables.what_if_table import show_what_if
    from toptank.interfaces.web import server
    from toptank.interfaces.web.drawing.loop_picture import loop_picture
    from toptank.interfaces.web.drawing.picture_file import check_picture_file, write_picture
    from toptank.interfaces.web.drawing.strip_chart import strip_chart, strip_of
    from toptank.interfaces.web.drawing.trade_off import trade_off

__getattr__, __dir__ = late_names(__file__, of="the screen")
