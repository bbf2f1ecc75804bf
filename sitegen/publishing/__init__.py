"""Publishing: a built site goes to where clients open it, without breaking what is there.

``store`` says what a target must be able to do; ``folder``, ``sftp``, ``bucket`` and
``git_branch`` do it. ``publication_record`` and ``publications`` are what is kept at the target about earlier
publications, ``difference`` and ``order`` decide what is sent and when, ``publisher`` does it.
"""
