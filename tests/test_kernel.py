"""The kernel that requirements.txt brings: sliders and cells are worked on by one thread, one after the other."""
from jupyter_client.manager import start_new_kernel


def test_what_sliders_say_is_worked_on_by_the_thread_of_the_cells():
    """Jupyter's messaging, `kernel_info_reply`: a kernel with subshells names the feature "kernel subshells"."""
    manager, client = start_new_kernel()
    try:
        told = client.kernel_info(reply=True, timeout=90)["content"]
    finally:
        client.stop_channels()
        manager.shutdown_kernel(now=True)
    assert "kernel subshells" not in told.get("supported_features", ())
