"""`studio facts`: all that the theory core says of a project, for a person, as Markdown and as JSON.

``sheets`` collects it as plain tables, once; ``tables``, ``markdown`` and ``as_json`` write the same tables.
"""
