"""What a person should know though nothing in the project file is wrong: of the episode, its clips and its sound."""

from studio.findings.episode import findings

__all__ = ["findings"]
